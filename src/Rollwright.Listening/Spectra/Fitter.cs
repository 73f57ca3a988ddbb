namespace Rollwright.Listening.Spectra;

/// <summary>
/// How much of each shape, and of a thin floor under all of them, makes a spectrum: the multiplicative steps of Lee and
/// Seung (2001) for the Kullback-Leibler divergence. One spectrum at a time; not for several threads at once.
/// </summary>
internal sealed class Fitter
{
    // What no note explains: a thin floor under the whole spectrum, part of it.
    private const double Floor = 0.03;

    // Shapes of which less is left, as a part of the whole, are out.
    private const double Nothing = 1e-6;

    private readonly float[] spectrum;
    private readonly double[] model;
    private readonly double[] bare;
    private readonly double floor;
    private readonly double bareSum;

    /// <param name="spectrum">By bin, not below 0; not all 0.</param>
    public Fitter(float[] spectrum)
    {
        this.spectrum = spectrum;
        Total = spectrum.Sum(value => (double)value);
        floor = Floor * Total / spectrum.Length;
        model = new double[spectrum.Length];
        Array.Fill(model, floor);
        bare = new double[spectrum.Length];
        for (var bin = 0; bin < bare.Length; bin++)
            bare[bin] = Divergence(bin, floor);
        bareSum = bare.Sum();
    }

    /// <summary>Sum of the spectrum.</summary>
    public double Total { get; }

    /// <returns>How much of each shape, and how far off their sum is, as a part of the spectrum.</returns>
    public (double[] Amounts, double Cost) Fit(ReadOnlySpan<Shape> shapes, int steps)
    {
        var amounts = new double[shapes.Length];
        Array.Fill(amounts, Total / Math.Max(1, shapes.Length));
        for (var step = 0; step < steps; step++)
        {
            Draw(shapes, amounts);
            for (var i = 0; i < shapes.Length; i++)
            {
                if (amounts[i] <= Nothing * Total)
                    continue;
                var (bins, values) = (shapes[i].Bins, shapes[i].Values);
                var factor = 0.0;
                for (var j = 0; j < bins.Length; j++)
                    factor += values[j] * spectrum[bins[j]] / model[bins[j]];
                amounts[i] *= factor;
            }
            Clear(shapes);
        }
        Draw(shapes, amounts);
        var cost = bareSum;
        foreach (var shape in shapes)
        {
            foreach (var bin in shape.Bins)
            {
                // Each bin once: it is bare again after it was counted.
                if (model[bin] <= floor)
                    continue;
                cost += Divergence(bin, model[bin]) - bare[bin];
                model[bin] = floor;
            }
        }
        Clear(shapes);
        return (amounts, cost / Total);
    }

    /// <summary>The sum of the shapes and the floor, by bin.</summary>
    public double[] Sum(ReadOnlySpan<Shape> shapes, ReadOnlySpan<double> amounts)
    {
        Draw(shapes, amounts);
        var sum = (double[])model.Clone();
        Clear(shapes);
        return sum;
    }

    private void Draw(ReadOnlySpan<Shape> shapes, ReadOnlySpan<double> amounts)
    {
        for (var i = 0; i < shapes.Length; i++)
        {
            if (amounts[i] <= Nothing * Total)
                continue;
            var (bins, values) = (shapes[i].Bins, shapes[i].Values);
            for (var j = 0; j < bins.Length; j++)
                model[bins[j]] += amounts[i] * values[j];
        }
    }

    private void Clear(ReadOnlySpan<Shape> shapes)
    {
        foreach (var shape in shapes)
        foreach (var bin in shape.Bins)
            model[bin] = floor;
    }

    private double Divergence(int bin, double said) =>
        (spectrum[bin] > 0 ? spectrum[bin] * Math.Log(spectrum[bin] / said) : 0) - spectrum[bin] + said;
}
