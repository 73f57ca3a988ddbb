namespace Rollwright.Listening.Beside.Evidence;

/// <summary>
/// What the rise of each pitch looks like on the instrument of the take: partials of a stiff string, their strengths learnt from
/// notes that are known because they were meant there and heard there (score-informed factorization, Ewert and Müller
/// 2012). Pitches that have no such note learn from their neighbours.
/// </summary>
internal sealed class PitchShapes
{
    private readonly int bins;
    private readonly double binWidth;
    private readonly double cents;
    private readonly double[][] weights;

    public PitchShapes(int bins, double binWidth, double cents)
    {
        (this.bins, this.binWidth, this.cents) = (bins, binWidth, cents);
        Lowest = (int)TakeTable.Of("lowest");
        weights = new double[(int)TakeTable.Of("highest") - Lowest + 1][];
        var fall = TakeTable.Of("fall");
        for (var i = 0; i < weights.Length; i++)
            weights[i] =
            [
                .. Enumerable.Range(0, (int)TakeTable.Of("partials")).Select(k => Math.Pow(fall, k) * (1 - fall)),
            ];
        Shapes = [.. weights.Select((_, i) => Drawn(i))];
    }

    public int Lowest { get; }

    public int Highest => Lowest + Shapes.Length - 1;

    // By pitch from the lowest; each sums to 1.
    private float[][] Shapes { get; }

    public float[] Of(int pitch) => Shapes[Math.Clamp(pitch - Lowest, 0, Shapes.Length - 1)];

    /// <summary>Learns from rises of single notes.</summary>
    public void Learn(IEnumerable<(int Pitch, float[] Rise)> known)
    {
        var partials = weights[0].Length;
        var heard = weights.Select(_ => new double[partials]).ToArray();
        foreach (var (pitch, rise) in known)
        {
            if (pitch < Lowest || pitch > Highest)
                continue;
            var strengths = Enumerable.Range(0, partials).Select(k => Strength(pitch, k, rise)).ToArray();
            var sum = strengths.Sum();
            for (var k = 0; k < partials && sum > 0; k++)
                heard[pitch - Lowest][k] += strengths[k] / sum;
        }
        for (var i = 0; i < weights.Length; i++)
        {
            // What was taken for granted counts as half a note.
            var sum = weights[i].Select(weight => weight / 2).ToArray();
            for (var other = 0; other < weights.Length; other++)
            {
                var trust = Math.Exp(-0.5 * (other - i) * (other - i));
                for (var k = 0; k < partials && trust > 1e-6; k++)
                    sum[k] += trust * heard[other][k];
            }
            var total = sum.Sum();
            weights[i] = [.. sum.Select(value => value / total)];
        }
        for (var i = 0; i < weights.Length; i++)
            Shapes[i] = Drawn(i);
    }

    private double Strength(int pitch, int partial, float[] rise)
    {
        var (place, share, whole) = (Place(pitch, partial), 0.0, 0.0);
        for (var bin = Math.Max(0, (int)Math.Ceiling(place - 2)); bin <= place + 2 && bin < bins; bin++)
        {
            var lobe = Lobe(bin - place);
            (share, whole) = (share + (lobe * rise[bin]), whole + (lobe * lobe));
        }
        return whole <= 0 ? 0 : share / whole;
    }

    private double Place(int pitch, int partial)
    {
        var (k, f) = (partial + 1, 440 * Math.Pow(2, (pitch - 69 + (cents / 100)) / 12));
        return k * f * Math.Sqrt(1 + (TakeTable.Of("stiffness") * k * k)) / binWidth;
    }

    private float[] Drawn(int index)
    {
        var shape = new float[bins];
        for (var k = 0; k < weights[index].Length; k++)
        {
            var place = Place(Lowest + index, k);
            for (var bin = Math.Max(0, (int)Math.Ceiling(place - 2)); bin <= place + 2 && bin < bins; bin++)
                shape[bin] += (float)(weights[index][k] * Lobe(bin - place));
        }
        var sum = shape.Sum();
        for (var bin = 0; bin < bins && sum > 0; bin++)
            shape[bin] /= sum;
        return shape;
    }

    // The main lobe of the Hann window's transform, compressed as the rises are.
    private static double Lobe(double x)
    {
        var lobe =
            Math.Abs(x) < 1e-6 ? 1
            : Math.Abs(Math.Abs(x) - 1) < 1e-6 ? 0.5
            : Math.Abs(Math.Sin(Math.PI * x) / (Math.PI * x) / (1 - (x * x)));
        return Math.Pow(lobe, TakeTable.Of("power"));
    }
}
