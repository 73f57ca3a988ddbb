using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Pitching;

/// <summary>What a note of each pitch looks like in a spectrum: partials of a stiff string, each as wide as the window makes it.</summary>
internal sealed class NoteTemplates
{
    private readonly double[][] weights;
    private readonly double[][] places;
    private readonly int bins;

    public NoteTemplates(Spectrogram spectra, double cents)
    {
        Lowest = (int)ListeningTable.Of("lowest");
        var (count, partials) = ((int)ListeningTable.Of("highest") - Lowest + 1, (int)ListeningTable.Of("partials"));
        var (stiffness, fall) = (ListeningTable.Of("stiffness"), ListeningTable.Of("fall"));
        bins = spectra.Bins;
        (weights, places, Shapes) = (new double[count][], new double[count][], new float[count][]);
        for (var note = 0; note < count; note++)
        {
            var f = 440 * Math.Pow(2, (Lowest + note - 69 + (cents / 100)) / 12);
            weights[note] = [.. Enumerable.Range(0, partials).Select(k => Math.Pow(fall, k))];
            places[note] =
            [
                .. Enumerable.Range(1, partials).Select(k => k * f * Math.Sqrt(1 + (stiffness * k * k)) / spectra.BinWidth),
            ];
            Draw(note);
        }
    }

    public int Lowest { get; }

    public int Count => Shapes.Length;

    /// <summary>By pitch from the lowest; each sums to 1.</summary>
    public float[][] Shapes { get; }

    /// <summary>
    /// Learns the partials of each pitch from rises that were one note alone, from its neighbours too: a banjo's strings
    /// and body colour near pitches alike.
    /// </summary>
    public void Learn(IReadOnlyList<(int Note, float[] Rise)> alone)
    {
        var seen = alone.Select(item => (item.Note, Strengths: Measure(item.Note, item.Rise))).ToList();
        for (var note = 0; note < Count; note++)
        {
            var prior = 1.5;
            var sum = weights[note].Select(weight => weight * prior / weights[note].Sum()).ToArray();
            foreach (var (other, strengths) in seen)
            {
                var trust = Math.Exp(-0.5 * (other - note) * (other - note) / 1.5);
                for (var k = 0; k < sum.Length; k++)
                    sum[k] += trust * strengths[k];
            }
            weights[note] = sum;
            Draw(note);
        }
    }

    private double[] Measure(int note, float[] rise)
    {
        var strengths = places[note].Select(place => Peak(rise, place)).ToArray();
        var sum = strengths.Sum();
        return sum <= 0 ? strengths : [.. strengths.Select(value => value / sum)];
    }

    private static double Peak(float[] rise, double place)
    {
        var middle = (int)Math.Round(place);
        var peak = 0f;
        for (var bin = Math.Max(0, middle - 1); bin <= Math.Min(rise.Length - 1, middle + 1); bin++)
            peak = Math.Max(peak, rise[bin]);
        return peak;
    }

    private void Draw(int note)
    {
        var shape = Shapes[note] = new float[bins];
        for (var k = 0; k < places[note].Length; k++)
        {
            var place = places[note][k];
            for (var bin = (int)Math.Ceiling(place - 2); bin <= place + 2; bin++)
                if (bin >= 0 && bin < bins)
                    shape[bin] += (float)(weights[note][k] * Hann(bin - place));
        }
        var sum = shape.Sum();
        if (sum > 0)
            for (var bin = 0; bin < bins; bin++)
                shape[bin] /= sum;
    }

    /// <summary>The main lobe of the Hann window's transform, 1 at its middle, 0 two bins away.</summary>
    private static double Hann(double x)
    {
        if (Math.Abs(x) < 1e-6)
            return 1;
        if (Math.Abs(Math.Abs(x) - 1) < 1e-6)
            return 0.5;
        return Math.Abs(Math.Sin(Math.PI * x) / (Math.PI * x) / (1 - (x * x)));
    }
}
