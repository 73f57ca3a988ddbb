using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Playing;

namespace Rollwright.Sound.Band;

/// <summary>
/// Plays a written pattern over the chords: the bass takes root and fifth by turns, the root wherever the chord is new
/// (common practice, no source); the others strike the chord, or, where strings have no chord to play, a stick's click.
/// </summary>
internal sealed class Accompanist
{
    /// <summary>Force of a plain stroke beside a strong one (assumption).</summary>
    private const double PlainStroke = 0.7;

    private readonly InstrumentVoice voice;
    private readonly ChordTrack? chords;
    private readonly ImmutableArray<int> all;
    private readonly ImmutableArray<BandStroke>.Builder strokes = ImmutableArray.CreateBuilder<BandStroke>();
    private Chord? bassChord;
    private bool isFifthNext;

    private Accompanist(InstrumentVoice voice, ChordTrack? chords)
    {
        this.voice = voice;
        this.chords = chords;
        all = [.. voice.Strings.Select(own => own.String)];
    }

    /// <summary>What is done in all bars, in order of time.</summary>
    /// <param name="voice">The instrument; the pattern is found by its name.</param>
    /// <param name="timeline">When the bars are.</param>
    /// <param name="chords">What sounds in them.</param>
    /// <param name="playsMusic">Whether it plays on when the count is over.</param>
    public static ImmutableArray<BandStroke> Play(
        InstrumentVoice voice,
        Timeline timeline,
        ChordTrack chords,
        bool playsMusic
    )
    {
        var player = new Accompanist(voice, chords);
        var number = 0;
        foreach (var bar in timeline.Bars.Where(bar => bar.IsCount ? voice.Name == Ensemble.Click : playsMusic))
        {
            // Patterns of several bars go on from full bar to full bar.
            if (bar.From == Fraction.Zero)
                number++;
            var pattern = Pattern.Of(voice.Name, bar.Time);
            player.Play(bar, pattern.Bars[Math.Max(0, number - 1) % pattern.Bars.Length], timeline.SecondsPerWhole);
        }
        return player.strokes.ToImmutable();
    }

    /// <summary>The clicks of one counted bar, a second a whole note.</summary>
    public static ImmutableArray<BandStroke> Count(TimeSignature time)
    {
        var player = new Accompanist(InstrumentTable.Of(Ensemble.Click), null);
        var bar = new TimedBar(0, time, Fraction.Zero, time.Bar, -1, -1, -1);
        player.Play(bar, Pattern.Of(Ensemble.Click, time).Bars[0], 1);
        return player.strokes.ToImmutable();
    }

    private void Play(TimedBar bar, ImmutableArray<PatternSign> signs, double secondsPerWhole)
    {
        for (var i = 0; i < signs.Length; i++)
        {
            var at = bar.Time.Bar * new Fraction(i, signs.Length);
            if (at < bar.From || at >= bar.To)
                continue;
            var seconds = bar.Seconds + (at.ToDouble() * secondsPerWhole);
            switch (signs[i])
            {
                case PatternSign.Bass when chords?.At(bar, at) is { } chord:
                    PlayBass(seconds, chord);
                    break;
                case PatternSign.Stroke or PatternSign.StrongStroke:
                    Strike(seconds, chords?.At(bar, at), signs[i] == PatternSign.StrongStroke);
                    break;
                case PatternSign.Silence:
                    strokes.Add(new(seconds, all, [], 0));
                    break;
                default:
                    break;
            }
        }
    }

    private void PlayBass(double seconds, Chord chord)
    {
        if (bassChord != chord)
            isFifthNext = false;
        bassChord = chord;
        var (onString, above) = Voicing.Bass(voice, chord, chords!.Capo, isFifthNext);
        isFifthNext = !isFifthNext;
        strokes.Add(new(seconds, all.Remove(onString), [(onString, above)], 1));
    }

    private void Strike(double seconds, Chord? chord, bool isStrong)
    {
        var strength = isStrong ? 1 : PlainStroke;
        if (voice.Name == Ensemble.Click)
        {
            strokes.Add(new(seconds, [], [(isStrong ? 1 : 2, 0)], strength));
            return;
        }
        if (chord is not { } sounding)
            return;
        var frets = Voicing.Strum(voice, sounding, chords!.Capo);
        // Down: from the lowest string.
        strokes.Add(
            new(
                seconds,
                [.. all.Where(onString => frets[onString - 1] is null)],
                [.. all.Reverse().Where(own => frets[own - 1] is not null).Select(own => (own, frets[own - 1]!.Value))],
                strength
            )
        );
    }
}
