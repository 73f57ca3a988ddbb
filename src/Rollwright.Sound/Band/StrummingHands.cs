using System.Collections.Immutable;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Playing;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Band;

/// <summary>Turns what one of the band strikes and stops into acts on the strings.</summary>
internal sealed class StrummingHands
{
    /// <summary>Unevenness of the force, either way (assumption).</summary>
    internal const double Unevenness = 0.04;

    /// <summary>Seconds in which a hand stops a string.</summary>
    internal const double StopTime = 0.02;

    /// <summary>Seconds that a pick rests on a ringing string before it strikes, or the string's round trip if longer.</summary>
    internal const double Contact = 0.008;

    /// <summary>Seconds from which a string is left to ring until it is struck again or stopped.</summary>
    internal const double LongRing = 10;

    private readonly InstrumentVoice voice;
    private readonly Touch touch;
    private readonly Random chance;
    private readonly ActList acts = new();
    private readonly double?[] ringsSince;

    private StrummingHands(InstrumentVoice voice, int seed)
    {
        this.voice = voice;
        touch = voice.Touches.Values.First();
        ringsSince = new double?[voice.Strings.Length + 1];
        chance = new(seed);
    }

    /// <summary>All acts in order of time.</summary>
    public static ImmutableArray<HandEvent> Play(IEnumerable<BandStroke> strokes, InstrumentVoice voice, int seed)
    {
        var hands = new StrummingHands(voice, seed);
        foreach (var stroke in strokes)
            hands.Play(stroke);
        return hands.acts.InOrder();
    }

    private void Play(BandStroke stroke)
    {
        foreach (var onString in stroke.Stops)
            Stop(stroke.Seconds, onString);
        for (var i = 0; i < stroke.Plucks.Length; i++)
        {
            var (onString, above) = stroke.Plucks[i];
            Pluck(stroke.Seconds + (i * voice.Spread), onString, above, stroke.Strength);
        }
    }

    private void Pluck(double seconds, int onString, double above, double strength)
    {
        if (ringsSince[onString] is { } since)
        {
            var open = new OpenString(voice.Strings[onString - 1].Open ?? 0, voice.Scale);
            var contact = Math.Min(Math.Max(Contact, 1.2 / open.Hz), (seconds - since) / 2);
            acts.Touch(seconds - contact, onString, contact * 0.6);
        }
        acts.Stop(seconds, onString, above);
        acts.Pluck(seconds, onString, touch.With(strength * (1 + (Unevenness * Chance())), Chance()));
        ringsSince[onString] = seconds;
        if (voice.Ring < LongRing)
            Stop(seconds + voice.Ring, onString);
    }

    private void Stop(double seconds, int onString)
    {
        if (ringsSince[onString] is null)
            return;
        acts.Touch(seconds, onString, StopTime);
        ringsSince[onString] = null;
    }

    private double Chance() => (chance.NextDouble() * 2) - 1;
}
