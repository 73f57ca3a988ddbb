using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Pitching;

/// <summary>
/// Which notes begin at an onset: the rise of the spectrum is explained by non-negative amounts of note templates, by
/// the multiplicative steps of Lee and Seung (2001) for the Kullback-Leibler divergence.
/// </summary>
internal static class NoteFinder
{
    private const int Steps = 40;

    /// <param name="Onset">Seconds.</param>
    /// <param name="Fit">How alike the rise and the sum of the notes are: the cosine of their angle, 0 to 1.</param>
    /// <param name="Model">The sum of the notes, by bin; empty where there is no rise.</param>
    /// <param name="Amounts">By pitch from the lowest template.</param>
    public readonly record struct Explained(double Onset, float[] Rise, double Fit, double[] Amounts, double[] Model);

    public static List<Explained> Explain(Spectrogram spectra, IReadOnlyList<double> onsets, NoteTemplates templates)
    {
        var explained = new List<Explained>(onsets.Count);
        for (var i = 0; i < onsets.Count; i++)
        {
            var rise = Rise(spectra, onsets[i], i + 1 < onsets.Count ? onsets[i + 1] : double.MaxValue);
            var (amounts, fit, model) = Solve(rise, templates);
            explained.Add(new(onsets[i], rise, fit, amounts, model));
        }
        return explained;
    }

    private static float[] Rise(Spectrogram spectra, double onset, double next)
    {
        var settle = ListeningTable.Of("settle");
        var end = Math.Min(onset + ListeningTable.Of("listen"), Math.Max(onset + settle, next - settle));
        var after = spectra.Mean(onset + settle, end);
        var earlier = onset - ListeningTable.Of("before");
        var before = spectra.Mean(earlier, earlier);
        for (var bin = 0; bin < after.Length; bin++)
            after[bin] = Math.Max(0, after[bin] - before[bin]);
        return after;
    }

    private static (double[] Amounts, double Fit, double[] Model) Solve(float[] rise, NoteTemplates templates)
    {
        var total = (double)rise.Sum();
        var amounts = new double[templates.Count];
        if (total <= 1e-6)
            return (amounts, 0, []);
        Array.Fill(amounts, total / templates.Count);
        var model = new double[rise.Length];
        var sparse = ListeningTable.Of("sparse");
        for (var step = 0; step <= Steps; step++)
        {
            Array.Fill(model, 1e-4 * total / rise.Length);
            for (var note = 0; note < amounts.Length; note++)
                if (amounts[note] > 1e-6 * total)
                    for (var bin = 0; bin < model.Length; bin++)
                        model[bin] += amounts[note] * templates.Shapes[note][bin];
            if (step == Steps)
                break;
            for (var note = 0; note < amounts.Length; note++)
            {
                if (amounts[note] <= 1e-6 * total)
                    continue;
                var factor = 0.0;
                var shape = templates.Shapes[note];
                for (var bin = 0; bin < model.Length; bin++)
                    factor += shape[bin] * rise[bin] / model[bin];
                amounts[note] = Math.Max(0, (amounts[note] * factor) - (step < 5 ? 0 : sparse * total));
            }
        }
        var (both, rises, models) = (0.0, 0.0, 0.0);
        for (var bin = 0; bin < rise.Length; bin++)
        {
            both += rise[bin] * model[bin];
            rises += (double)rise[bin] * rise[bin];
            models += model[bin] * model[bin];
        }
        return (amounts, both / Math.Sqrt(rises * models), model);
    }
}
