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

    /// <summary>Unevenness of the force, either way (assumption).</summary>
    private const double Unevenness = 0.04;

    /// <summary>Seconds in which a hand stops a string.</summary>
    private const double StopTime = 0.02;

    /// <summary>Seconds that a pick rests on a ringing string before it strikes, or the string's round trip if longer.</summary>
    private const double Contact = 0.008;

    /// <summary>Seconds from which a string is left to ring until it is struck again or stopped.</summary>
    private const double LongRing = 10;

    private readonly InstrumentVoice voice;
    private readonly ChordTrack chords;
    private readonly Touch touch;
    private readonly Random chance;
    private readonly ActList acts = new();
    private readonly double?[] ringsSince;
    private Chord? bassChord;
    private bool isFifthNext;

    private Accompanist(InstrumentVoice voice, ChordTrack chords, int seed)
    {
        this.voice = voice;
        this.chords = chords;
        touch = voice.Touches.Values.First();
        ringsSince = new double?[voice.Strings.Length + 1];
        chance = new(seed);
    }

    /// <param name="voice">The instrument; the pattern is found by its name.</param>
    /// <param name="timeline">When the bars are.</param>
    /// <param name="chords">What sounds in them.</param>
    /// <param name="playsMusic">Whether it plays on when the count is over.</param>
    /// <param name="seed">For the unevenness of the hand.</param>
    public static ImmutableArray<HandEvent> Play(
        InstrumentVoice voice,
        Timeline timeline,
        ChordTrack chords,
        bool playsMusic,
        int seed
    )
    {
        var player = new Accompanist(voice, chords, seed);
        var number = 0;
        foreach (var bar in timeline.Bars.Where(bar => bar.IsCount ? voice.Name == Ensemble.Click : playsMusic))
        {
            // Patterns of several bars go on from full bar to full bar.
            if (bar.From == Fraction.Zero)
                number++;
            var pattern = Pattern.Of(voice.Name, bar.Time);
            player.Play(bar, pattern.Bars[Math.Max(0, number - 1) % pattern.Bars.Length], timeline.SecondsPerWhole);
        }
        return player.acts.InOrder();
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
                case PatternSign.Bass when chords.At(bar, at) is { } chord:
                    PlayBass(seconds, chord);
                    break;
                case PatternSign.Stroke or PatternSign.StrongStroke:
                    Strike(seconds, chords.At(bar, at), signs[i] == PatternSign.StrongStroke);
                    break;
                case PatternSign.Silence:
                    StopAll(seconds);
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
        var (onString, above) = Voicing.Bass(voice, chord, chords.Capo, isFifthNext);
        isFifthNext = !isFifthNext;
        for (var other = 1; other <= voice.Strings.Length; other++)
        {
            if (other != onString)
                StopString(seconds, other);
        }
        Pluck(seconds, onString, above, 1);
    }

    private void Strike(double seconds, Chord? chord, bool isStrong)
    {
        var strength = isStrong ? 1 : PlainStroke;
        if (voice.Name == Ensemble.Click)
        {
            Pluck(seconds, isStrong ? 1 : 2, 0, strength);
            return;
        }
        if (chord is not { } sounding)
            return;
        var frets = Voicing.Strum(voice, sounding, chords.Capo);
        var at = seconds;
        // Down: from the lowest string.
        for (var i = frets.Length - 1; i >= 0; i--)
        {
            if (frets[i] is not { } fret)
            {
                StopString(seconds, i + 1);
                continue;
            }
            Pluck(at, i + 1, fret, strength);
            at += voice.Spread;
        }
    }

    private void Pluck(double seconds, int onString, double above, double strength)
    {
        if (ringsSince[onString] is { } since)
        {
            var open = new Strings.OpenString(voice.Strings[onString - 1].Open ?? 0, voice.Scale);
            var contact = Math.Min(Math.Max(Contact, 1.2 / open.Hz), (seconds - since) / 2);
            acts.Touch(seconds - contact, onString, contact * 0.6);
        }
        acts.Stop(seconds, onString, above);
        acts.Pluck(seconds, onString, touch.With(strength * (1 + (Unevenness * Chance())), Chance()));
        ringsSince[onString] = seconds;
        if (voice.Ring < LongRing)
            StopString(seconds + voice.Ring, onString);
    }

    private void StopAll(double seconds)
    {
        for (var onString = 1; onString <= voice.Strings.Length; onString++)
            StopString(seconds, onString);
    }

    private void StopString(double seconds, int onString)
    {
        if (ringsSince[onString] is null)
            return;
        acts.Touch(seconds, onString, StopTime);
        ringsSince[onString] = null;
    }

    private double Chance() => (chance.NextDouble() * 2) - 1;
}
