using System.Numerics;
using System.Runtime.InteropServices;
using Rollwright.Audio.Reading;

namespace Rollwright.Listening.Melodies;

/// <summary>
/// Candidates of the fundamental frequency, frame by frame: the dips of YIN's cumulative mean normalised difference
/// (de Cheveigné and Kawahara 2002), each as likely as the thresholds that would choose it (pYIN, Mauch and Dixon 2014).
/// </summary>
internal sealed class PitchTrack
{
    /// <summary>Seconds from one frame to the next; frame i has its middle at i times this.</summary>
    public const double Hop = 0.005;

    private const double WindowSeconds = 0.024;
    private const double PowerSeconds = 0.012;
    private const double LowestHertz = 78;
    private const double HighestHertz = 3_200;
    private const int Thresholds = 100;

    // Where no dip is below any threshold, the deepest has this part of the chance (pYIN).
    private const float Otherwise = 0.01f;

    private static readonly float[] Prior = Beta();

    private readonly int rate;
    private readonly int window;
    private readonly int shown;
    private readonly int longest;
    private readonly int shortest;
    private readonly float[] difference;
    private readonly SpectralRise rise;

    private PitchTrack(int rate)
    {
        this.rate = rate;
        window = (int)(WindowSeconds * rate);
        shown = (int)(PowerSeconds * rate);
        longest = (int)Math.Ceiling(rate / LowestHertz) + 2;
        shortest = Math.Max(2, (int)(rate / HighestHertz));
        difference = new float[longest + 1];
        rise = new(rate);
    }

    /// <param name="sound">One channel; read to its end or to the bound.</param>
    /// <param name="most">Frames at most.</param>
    public static List<PitchFrame> Of(ISoundSource sound, int most)
    {
        var track = new PitchTrack(sound.Rate);
        var size = Math.Max(track.window + track.longest, track.rise.Size);
        var frames = new List<PitchFrame>();
        var buffer = new float[size + (1 << 15)];
        // The first frame has its middle at the start of the sound: silence stands before it.
        var (origin, held, hasEnded) = (-(long)(size / 2), size / 2, false);
        for (var i = 0; i < most; i++)
        {
            var start = (int)((long)(i * Hop * sound.Rate) - (size / 2) - origin);
            while (!hasEnded && held - start < size)
            {
                buffer.AsSpan(start, held - start).CopyTo(buffer);
                (origin, held, start) = (origin + start, held - start, 0);
                var read = sound.Read(buffer.AsSpan(held));
                hasEnded = read == 0;
                held += read;
            }
            if (held - start <= size / 2)
                break;
            if (held - start < size)
                buffer.AsSpan(held..(start + size)).Clear();
            frames.Add(track.Frame(buffer.AsSpan(start, size)));
        }
        return frames;
    }

    private PitchFrame Frame(ReadOnlySpan<float> sound)
    {
        var flux = rise.Next(sound[((sound.Length - rise.Size) / 2)..]);
        var at = (sound.Length - window - longest) / 2;
        sound = sound.Slice(at, window + longest);
        // Short, so that the moment between two strokes of a bow is seen.
        var power = Power(sound.Slice((sound.Length - shown) / 2, shown));
        return new(power < 1e-9f ? [] : Candidates(sound), power, flux);
    }

    private (float Key, float Chance)[] Candidates(ReadOnlySpan<float> sound)
    {
        Differences(sound);
        var dips = new List<(int Lag, float Depth)>();
        for (var lag = shortest; lag < longest; lag++)
            if (difference[lag] < difference[lag - 1] && difference[lag] <= difference[lag + 1] && difference[lag] < 1)
                dips.Add((lag, difference[lag]));
        if (dips.Count == 0)
            return [];
        var chances = new float[dips.Count];
        var deepest = dips.IndexOf(dips.MinBy(dip => dip.Depth));
        for (var i = 0; i < Thresholds; i++)
        {
            var threshold = (i + 1f) / Thresholds;
            var chosen = dips.FindIndex(dip => dip.Depth < threshold);
            chances[chosen < 0 ? deepest : chosen] += Prior[i] * (chosen < 0 ? Otherwise : 1);
        }
        return [.. dips.Select((dip, i) => (Key(dip.Lag), chances[i])).Where(item => item.Item2 > 0.005f)];
    }

    // Of a short period several are measured at once, for a lag of a few frames says little.
    private float Key(int lag)
    {
        var exact = Exact(lag);
        for (var times = 2; times <= 6 && exact * times < longest - 2; times++)
        {
            var near = (int)Math.Round(exact * times);
            while (near > 2 && difference[near - 1] < difference[near])
                near--;
            while (near < longest - 1 && difference[near + 1] < difference[near])
                near++;
            var better = Exact(near) / times;
            if (Math.Abs(better - exact) > 0.5)
                break;
            exact = better;
        }
        return (float)(69 + (12 * Math.Log2(rate / exact / 440)));
    }

    private double Exact(int lag)
    {
        var (a, b, c) = ((double)difference[lag - 1], difference[lag], difference[lag + 1]);
        var bend = a - (2 * b) + c;
        return bend <= 0 ? lag : lag + Math.Clamp(0.5 * (a - c) / bend, -1, 1);
    }

    // Steps 2 and 3 of YIN.
    private void Differences(ReadOnlySpan<float> sound)
    {
        var first = sound[..window];
        var sum = 0.0;
        difference[0] = 1;
        for (var lag = 1; lag <= longest; lag++)
        {
            var one = Distance(first, sound.Slice(lag, Math.Min(window, sound.Length - lag)));
            sum += one;
            difference[lag] = sum <= 0 ? 1 : (float)(one * lag / sum);
        }
    }

    private static float Distance(ReadOnlySpan<float> one, ReadOnlySpan<float> other)
    {
        one = one[..other.Length];
        var wideOne = MemoryMarshal.Cast<float, Vector<float>>(one);
        var wideOther = MemoryMarshal.Cast<float, Vector<float>>(other);
        var wide = Vector<float>.Zero;
        for (var i = 0; i < wideOne.Length; i++)
        {
            var away = wideOne[i] - wideOther[i];
            wide += away * away;
        }
        var sum = Vector.Sum(wide);
        for (var i = wideOne.Length * Vector<float>.Count; i < one.Length; i++)
            sum += (one[i] - other[i]) * (one[i] - other[i]);
        return sum;
    }

    private static float Power(ReadOnlySpan<float> sound)
    {
        var sum = 0.0;
        foreach (var value in sound)
            sum += (double)value * value;
        return (float)(sum / sound.Length);
    }

    // The beta distribution with parameters 2 and 18, mean 0.1: pYIN's prior of thresholds.
    private static float[] Beta()
    {
        var prior = Enumerable
            .Range(1, Thresholds)
            .Select(i => (double)i / Thresholds)
            .Select(x => x * Math.Pow(1 - x, 17))
            .ToArray();
        return [.. prior.Select(value => (float)(value / prior.Sum()))];
    }
}
