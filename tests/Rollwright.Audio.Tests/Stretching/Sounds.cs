namespace Rollwright.Audio.Tests.Stretching;

/// <summary>What the tests hear in a sound of 44,100 frames a second.</summary>
internal static class Sounds
{
    private const int Rate = 44_100;

    /// <summary>Thirty notes, each struck while those before ring; and when, in seconds.</summary>
    public static (Samples Sound, double[] Starts) RingingNotes()
    {
        var starts = Enumerable.Range(0, 30).Select(i => 0.1 + (i * 0.13)).ToArray();
        var values = new float[(int)((starts[^1] + 0.5) * Rate)];
        for (var note = 0; note < starts.Length; note++)
        {
            var pitch = 196 * Math.Pow(2, new[] { 0, 4, 7, 19, 12 }[note % 5] / 12.0);
            for (var i = 0; i < Rate; i++)
            {
                var at = (int)(starts[note] * Rate) + i;
                for (var k = 1; k <= 12 && at < values.Length; k++)
                    values[at] += (float)(
                        0.1
                        / k
                        * Math.Exp(-(double)i / Rate * (4 + (2 * k)))
                        * Math.Sin(2 * Math.PI * k * pitch * i / Rate)
                    );
            }
        }
        return (new(Rate, 1, values), starts);
    }

    /// <summary>By a detector of the tests' own: the power of the second difference in 1 ms, four times what it was in the 6 ms before; seconds.</summary>
    public static List<double> Onsets(float[] sound)
    {
        const int block = Rate / 1_000;
        var powers = new double[sound.Length / block];
        for (var i = 2; i < powers.Length * block; i++)
            powers[i / block] += Math.Pow(sound[i] - (2 * sound[i - 1]) + sound[i - 2], 2);
        var found = new List<double>();
        var loudest = powers.Max();
        for (var i = 6; i < powers.Length; i++)
        {
            var at = (double)i * block / Rate;
            if (
                powers[i] > 0.003 * loudest
                && powers[i] > 4 * powers[(i - 6)..i].Max()
                && (found.Count == 0 || at - found[^1] > 0.006)
            )
                found.Add(at);
        }
        return found;
    }

    /// <summary>Hz: the peak of the spectrum under a Gaussian window, whose logarithm is a parabola.</summary>
    public static double Pitch(float[] sound)
    {
        var size = 1 << (int)Math.Log2(sound.Length);
        var bins = new NAudio.Dsp.Complex[size];
        for (var i = 0; i < size; i++)
            bins[i].X = (float)(sound[i] * Math.Exp(-0.5 * Math.Pow((i - (size / 2.0)) / (size / 8.0), 2)));
        NAudio.Dsp.FastFourierTransform.FFT(true, (int)Math.Log2(size), bins);
        var powers = bins[..(size / 2)]
            .Select(bin => Math.Log(((double)bin.X * bin.X) + ((double)bin.Y * bin.Y) + 1e-30))
            .ToArray();
        var best = Array.IndexOf(powers, powers.Max());
        var (a, b, c) = (powers[best - 1], powers[best], powers[best + 1]);
        return (best + (0.5 * (a - c) / (a - (2 * b) + c))) * Rate / size;
    }
}
