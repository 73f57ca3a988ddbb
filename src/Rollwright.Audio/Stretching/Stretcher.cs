using System.Numerics;
using System.Runtime.InteropServices;

namespace Rollwright.Audio.Stretching;

/// <summary>
/// A sound slower or faster at the same pitch: waveform similarity overlap-add (WSOLA: Verhelst and Roelands 1993). Windows
/// of the sound are laid over each other at even distances; each is taken near its place, where it is most like what
/// would have followed the window before. Attacks are copied whole, as in Grofit and Lavner (2008), for a window that is
/// taken twice would strike twice.
/// </summary>
public static class Stretcher
{
    /// <summary>Stretched length over length: from half to four times.</summary>
    public const double Least = 0.5;

    /// <inheritdoc cref="Least"/>
    public const double Most = 4;

    // Twice the period of the lowest note of a guitar and more (assumption: 82 Hz), and the half of it to find the like.
    private const double WindowSeconds = 0.032;
    private const double NearSeconds = 0.008;

    // An attack may be this much off its place, so that what rings over it goes on in phase: half a period of 147 Hz.
    private const double AttackNearSeconds = 0.0035;
    private const double GuardSeconds = 0.004;

    /// <param name="sound">Any rate, any channels.</param>
    /// <param name="stretch">Stretched length over length, from <see cref="Least"/> to <see cref="Most"/>; 1 gives the same sound.</param>
    /// <exception cref="ArgumentOutOfRangeException">The stretch is out of range.</exception>
    public static Samples Stretch(Samples sound, double stretch)
    {
        ArgumentNullException.ThrowIfNull(sound);
        ArgumentOutOfRangeException.ThrowIfLessThan(stretch, Least);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(stretch, Most);
        var frames = (int)Math.Round(sound.Frames * stretch);
        var hop = Math.Max(8, (int)(WindowSeconds * sound.Rate / 2));
        var mono = Mean(sound);
        var map = new TimeMap(
            sound.Frames,
            stretch,
            stretch == 1 ? [] : Attacks.Find(mono, sound.Rate),
            (2 * hop) + (NearSeconds * sound.Rate),
            (NearSeconds + GuardSeconds) * sound.Rate
        );
        var places = Places(mono, map, frames, hop, sound.Rate);
        return new(sound.Rate, sound.Channels, Laid(sound, places, frames, hop));
    }

    // Where each window is taken from; the first begins a hop before the sound.
    private static List<int> Places(float[] mono, TimeMap map, int frames, int hop, int rate)
    {
        var places = new List<int> { -hop };
        var wasCopied = false;
        for (var time = 0; time < frames; time += hop)
        {
            var natural = places[^1] + hop;
            var wanted = (int)Math.Round(map.PlaceAt(time));
            var isCopied = map.IsCopied(time);
            var near = (int)((isCopied ? AttackNearSeconds : NearSeconds) * rate);
            // Once in a copied stretch, or as long as nothing has to be made up for, the sound just goes on.
            var goesOn = natural == wanted || (isCopied && wasCopied && Math.Abs(natural - wanted) <= near + 1);
            places.Add(goesOn ? natural : Likest(mono, natural, wanted, near, 2 * hop));
            wasCopied = isCopied;
        }
        return places;
    }

    private static int Likest(float[] sound, int natural, int wanted, int near, int length)
    {
        var pattern = Window(sound, natural, length);
        var around = Window(sound, wanted - near, length + (2 * near));
        var power = 0.0;
        for (var i = 0; i < length; i++)
            power += (double)around[i] * around[i];
        var (best, most) = (near, double.NegativeInfinity);
        for (var shift = 0; shift <= 2 * near; shift++)
        {
            var likeness = Dot(pattern, around.AsSpan(shift, length)) / Math.Sqrt(Math.Max(power, 1e-12));
            // Of equals the nearest to its place, so that silence does not drift.
            if (likeness > most + 1e-9 || (likeness > most - 1e-9 && Math.Abs(shift - near) < Math.Abs(best - near)))
                (best, most) = (shift, likeness);
            if (shift < 2 * near)
                power +=
                    ((double)around[shift + length] * around[shift + length]) - ((double)around[shift] * around[shift]);
        }
        return wanted - near + best;
    }

    private static float[] Laid(Samples sound, List<int> places, int frames, int hop)
    {
        var channels = sound.Channels;
        var values = sound.Interleaved;
        var laid = new float[frames * channels];
        for (var k = 0; k < places.Count; k++)
        {
            var start = (k - 1) * hop;
            for (var i = 0; i < 2 * hop; i++)
            {
                var (to, from) = (start + i, places[k] + i);
                if (to < 0 || to >= frames || from < 0 || from >= sound.Frames)
                    continue;
                // Hann; two of them, a hop apart, sum to one.
                var weight = (float)(0.5 - (0.5 * Math.Cos(Math.PI * i / hop)));
                for (var channel = 0; channel < channels; channel++)
                    laid[(to * channels) + channel] += weight * values[(from * channels) + channel];
            }
        }
        return laid;
    }

    private static float[] Mean(Samples sound)
    {
        var mean = sound.Channel(0);
        for (var channel = 1; channel < sound.Channels; channel++)
        {
            var other = sound.Channel(channel);
            for (var i = 0; i < mean.Length; i++)
                mean[i] += other[i];
        }
        return mean;
    }

    private static float[] Window(float[] sound, int start, int length)
    {
        var window = new float[length];
        var first = Math.Max(0, -start);
        var count = Math.Min(length, sound.Length - start) - first;
        if (count > 0)
            Array.Copy(sound, start + first, window, first, count);
        return window;
    }

    private static float Dot(ReadOnlySpan<float> one, ReadOnlySpan<float> other)
    {
        var wideOne = MemoryMarshal.Cast<float, Vector<float>>(one);
        var wideOther = MemoryMarshal.Cast<float, Vector<float>>(other);
        var wide = Vector<float>.Zero;
        for (var i = 0; i < wideOne.Length; i++)
            wide += wideOne[i] * wideOther[i];
        var sum = Vector.Sum(wide);
        for (var i = wideOne.Length * Vector<float>.Count; i < one.Length; i++)
            sum += one[i] * other[i];
        return sum;
    }
}
