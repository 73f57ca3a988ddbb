using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Playing;

namespace Rollwright.Sound.Band;

/// <summary>All that is played: the banjo's part and those of the band, on one timeline.</summary>
/// <param name="Parts">The banjo first, then the band in the order of the tables.</param>
/// <param name="Timeline">When what of the break is played.</param>
public sealed record Ensemble(ImmutableArray<Part> Parts, Timeline Timeline)
{
    /// <summary>Name of the part that clicks, and that counts in even where it is not of the band.</summary>
    public const string Click = "click";

    /// <summary>Who can be asked to play beside the banjo, in the order of the tables.</summary>
    public static ImmutableArray<string> Accompanists =>
        [.. InstrumentTable.All.Skip(1).Select(instrument => instrument.Name)];

    /// <exception cref="SoundException">
    /// An option is out of its range, a part is not known, the span is empty, or the sound would be too long.
    /// </exception>
    public static Ensemble Of(Break played, SynthOptions options)
    {
        var timeline = Timeline.Of(played, options);
        foreach (var name in options.Band.Concat(options.Levels.Keys))
        {
            if (name != InstrumentTable.Banjo.Name && !Accompanists.Contains(name))
                throw new SoundException($"No part is called '{name}'; known are {string.Join(", ", Accompanists)}.");
        }
        var parts = ImmutableArray.CreateBuilder<Part>();
        parts.Add(BanjoPart(played, timeline, options));
        var chords = new ChordTrack(played, timeline);
        foreach (var name in Accompanists)
        {
            var isAsked = options.Band.Contains(name);
            if (!isAsked && (name != Click || options.CountIn == 0))
                continue;
            var voice = InstrumentTable.Of(name);
            var strokes = Accompanist.Play(voice, timeline, chords, isAsked);
            var acts = StrummingHands.Play(strokes, voice, options.Seed);
            parts.Add(new(voice, voice.OpenStrings, LevelOf(voice, options), acts));
        }
        return new(parts.ToImmutable(), timeline);
    }

    private static Part BanjoPart(Break played, Timeline timeline, SynthOptions options)
    {
        var banjo = InstrumentTable.Banjo;
        var hand = new PickingHand(options.Accents, banjo, options.Seed);
        var acts = Hands.Play(timeline.Strokes.Where(stroke => !stroke.IsResting), hand);
        return new(banjo, banjo.OpenStringsIn(played.Setting), LevelOf(banjo, options), acts);
    }

    private static double LevelOf(InstrumentVoice voice, SynthOptions options) =>
        voice.Level + options.Levels.GetValueOrDefault(voice.Name);
}
