using System.Collections.Immutable;
using System.Numerics;
using Rollwright.Audio;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Sound.Tests;

/// <summary>Measures what a render sounds like, and makes breaks of a note or two to measure.</summary>
internal static class Ear
{
    public static readonly Setting OpenG = new(TuningTable.OpenG, 0, new Key(new PitchName(Letter.G)), -12);

    /// <summary>One bar of a whole note a beat, 60 a minute quarter notes: a stroke's At in quarters is its second.</summary>
    public static Break Of(int beats, params IEnumerable<Stroke> strokes) =>
        new()
        {
            Title = "Measured",
            Setting = OpenG,
            Time = TimeSignature.Common,
            Tempo = new(new Fraction(1, 4), 60),
            Bars =
            [
                new BreakBar
                {
                    Length = new Fraction(beats, 4),
                    Time = TimeSignature.Common,
                    Strokes = [.. strokes],
                },
            ],
        };

    public static Stroke Plucked(int banjoString, int fret, int beat = 0, RightFinger? right = null) =>
        new()
        {
            At = new Fraction(beat, 4),
            Length = new Fraction(1, 4),
            String = banjoString,
            Fret = fret,
            Right =
                right
                ?? (
                    banjoString >= 3 ? RightFinger.T
                    : banjoString == 2 ? RightFinger.I
                    : RightFinger.M
                ),
            Left = fret == 0 ? null : 1,
            IsMelody = true,
        };

    public static Stroke Slurred(int banjoString, int fret, int beat, SlurKind slur) =>
        Plucked(banjoString, fret, beat) with
        {
            Right = null,
            Slur = slur,
        };

    public static Samples Note(int banjoString, int fret, int beats = 3) =>
        Synth.Render(Of(beats, Plucked(banjoString, fret)));

    public static double Hz(int key) => 440 * Math.Pow(2, (key - 69) / 12.0);

    public static double Cents(double hz, double wanted) => 1200 * Math.Log2(hz / wanted);

    /// <summary>
    /// The fundamental near an expected one, by how its phase turns between two windowed stretches: exact to a small part
    /// of a cent for a steady partial, and blind to the synth's own arithmetic.
    /// </summary>
    public static double Fundamental(ReadOnlySpan<float> sound, int rate, double near, double from = 0.15)
    {
        var length = (int)(0.2 * rate);
        var start = (int)(from * rate);
        // A hop so short that the phase turns by less than half a cycle more or less than expected.
        var hop = (int)(0.03 * rate);
        var first = Partial(sound.Slice(start, length), rate, near);
        var second = Partial(sound.Slice(start + hop, length), rate, near);
        var expected = 2 * Math.PI * near * hop / rate;
        var turned = Math.IEEERemainder(second.Phase - first.Phase - expected, 2 * Math.PI);
        return near + (turned * rate / (2 * Math.PI * hop));
    }

    /// <summary>RMS in dB of each stretch of 10 ms.</summary>
    public static double[] Levels(ReadOnlySpan<float> sound, int rate)
    {
        var length = rate / 100;
        var levels = new double[sound.Length / length];
        for (var i = 0; i < levels.Length; i++)
        {
            var sum = 0.0;
            foreach (var value in sound.Slice(i * length, length))
                sum += value * value;
            levels[i] = 10 * Math.Log10((sum / length) + 1e-14);
        }
        return levels;
    }

    /// <summary>Seconds to −60 dB by the straight line through the levels between two marks below the loudest.</summary>
    public static double DecayTime(ReadOnlySpan<float> sound, int rate, double upper, double lower)
    {
        var levels = Levels(sound, rate);
        var top = levels.Max();
        var start = Array.IndexOf(levels, top);
        var from = Array.FindIndex(levels, start, level => level <= top + upper);
        var to = Array.FindIndex(levels, from, level => level <= top + lower);
        if (to < 0)
            to = levels.Length - 1;
        double n = 0,
            sx = 0,
            sy = 0,
            sxx = 0,
            sxy = 0;
        for (var i = from; i <= to; i++)
        {
            var x = i / 100.0;
            n++;
            sx += x;
            sy += levels[i];
            sxx += x * x;
            sxy += x * levels[i];
        }
        return -60 / (((n * sxy) - (sx * sy)) / ((n * sxx) - (sx * sx)));
    }

    /// <summary>Hz about which the power spectrum balances (magnitudes as weights), 20 to 113 ms after the attack.</summary>
    public static double Centroid(ReadOnlySpan<float> sound, int rate)
    {
        const int size = 4096;
        var part = sound.Slice((int)(0.02 * rate), size);
        var spectrum = new Complex[size];
        for (var i = 0; i < size; i++)
            spectrum[i] = part[i] * (0.5 - (0.5 * Math.Cos(2 * Math.PI * i / size)));
        Fourier(spectrum);
        double weight = 0,
            sum = 0;
        for (var k = 1; k < size / 2; k++)
        {
            weight += spectrum[k].Magnitude;
            sum += spectrum[k].Magnitude * k * rate / size;
        }
        return sum / weight;
    }

    /// <summary>Seconds at which the sound starts anew: the first rise of the fine level above what was before.</summary>
    public static ImmutableArray<double> Onsets(ReadOnlySpan<float> sound, int rate, double factor = 4)
    {
        var length = rate / 1000;
        var onsets = ImmutableArray.CreateBuilder<double>();
        double slow = 1e-5;
        for (var i = 0; i + length <= sound.Length; i += length)
        {
            var peak = 0.0;
            foreach (var value in sound.Slice(i, length))
                peak = Math.Max(peak, Math.Abs(value));
            var at = (double)i / rate;
            if (peak > factor * slow && peak > 0.02 && (onsets.Count == 0 || at - onsets[^1] > 0.03))
                onsets.Add(at);
            slow = Math.Max(peak, slow * 0.97);
        }
        return onsets.ToImmutable();
    }

    public static (double Magnitude, double Phase) Partial(ReadOnlySpan<float> part, int rate, double hz)
    {
        var sum = Complex.Zero;
        for (var i = 0; i < part.Length; i++)
        {
            var window =
                0.42
                - (0.5 * Math.Cos(2 * Math.PI * i / part.Length))
                + (0.08 * Math.Cos(4 * Math.PI * i / part.Length));
            sum += part[i] * window * Complex.FromPolarCoordinates(1, -2 * Math.PI * hz * i / rate);
        }
        return (2 * sum.Magnitude / (0.42 * part.Length), sum.Phase);
    }

    // Radix-2, plain: this is a judge, not a kernel.
    private static void Fourier(Span<Complex> a)
    {
        if (a.Length == 1)
            return;
        var half = a.Length / 2;
        var even = new Complex[half];
        var odd = new Complex[half];
        for (var i = 0; i < half; i++)
            (even[i], odd[i]) = (a[2 * i], a[(2 * i) + 1]);
        Fourier(even);
        Fourier(odd);
        for (var k = 0; k < half; k++)
        {
            var turned = Complex.FromPolarCoordinates(1, -2 * Math.PI * k / a.Length) * odd[k];
            (a[k], a[k + half]) = (even[k] + turned, even[k] - turned);
        }
    }
}
