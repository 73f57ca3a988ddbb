namespace Rollwright.Listening.Beside.Evidence;

/// <summary>
/// How well a set of notes explains a rise: non-negative amounts by the multiplicative steps of Lee and Seung (2001) for the
/// Kullback-Leibler divergence, over a thin floor for what no note explains.
/// </summary>
internal static class Explanation
{
    private const double Floor = 0.05;
    private const int Steps = 25;

    /// <returns>What stays unexplained as a part of the rise, 0 and up; and the part of each note, in the order asked.</returns>
    public static (double Cost, double[] Parts) Of(float[] rise, IReadOnlyList<int> pitches, PitchShapes shapes)
    {
        var total = (double)rise.Sum();
        var parts = new double[pitches.Count];
        if (total <= 1e-9)
            return (0, parts);
        Array.Fill(parts, total / Math.Max(1, parts.Length));
        var drawn = pitches.Select(shapes.Of).ToArray();
        var model = new double[rise.Length];
        for (var step = 0; ; step++)
        {
            Array.Fill(model, Floor * total / rise.Length);
            for (var i = 0; i < parts.Length; i++)
            for (var bin = 0; bin < model.Length; bin++)
                model[bin] += parts[i] * drawn[i][bin];
            if (step == Steps)
                break;
            for (var i = 0; i < parts.Length; i++)
            {
                var factor = 0.0;
                for (var bin = 0; bin < model.Length; bin++)
                    factor += drawn[i][bin] * rise[bin] / model[bin];
                parts[i] *= factor;
            }
        }
        var cost = 0.0;
        for (var bin = 0; bin < model.Length; bin++)
            cost += (rise[bin] > 0 ? rise[bin] * Math.Log(rise[bin] / model[bin]) : 0) - rise[bin] + model[bin];
        return (cost / total, [.. parts.Select(part => part / total)]);
    }
}
