using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Pitching;

/// <summary>
/// Which notes begin at an onset: the smallest set of notes that explains the rise of the spectrum. All notes together are
/// fitted first, to see which come into question; then sets of one, two and three of those are fitted by themselves, and
/// each further note has its price. Amounts are found by the multiplicative steps of Lee and Seung (2001) for the
/// Kullback-Leibler divergence.
/// </summary>
internal static class NoteFinder
{
    private const int WideSteps = 25;
    private const int NarrowSteps = 20;

    // What no note explains: a thin floor under the whole spectrum, part of the rise.
    private const double Floor = 0.03;

    /// <param name="Onset">Seconds.</param>
    /// <param name="Rise">By bin, what is louder after the onset than before.</param>
    /// <param name="Fit">How alike the rise and the sum of the notes are: the cosine of their angle, 0 to 1.</param>
    /// <param name="Notes">Indices of the templates that explain it, strongest first.</param>
    /// <param name="Amounts">How much of each.</param>
    /// <param name="Gains">How much worse the rise is explained without each, as a part of the rise.</param>
    /// <param name="Model">The sum of the notes and the floor, by bin; empty where there is no rise.</param>
    public readonly record struct Explained(
        double Onset,
        float[] Rise,
        double Fit,
        int[] Notes,
        double[] Amounts,
        double[] Gains,
        double[] Model
    );

    public static List<Explained> Explain(
        Spectrogram spectra,
        IReadOnlyList<double> onsets,
        NoteTemplates templates,
        double price
    )
    {
        var explained = new List<Explained>(onsets.Count);
        for (var i = 0; i < onsets.Count; i++)
        {
            var rise = Rise(spectra, onsets[i], i + 1 < onsets.Count ? onsets[i + 1] : double.MaxValue);
            explained.Add(Solve(onsets[i], rise, templates, price));
        }
        return explained;
    }

    private static float[] Rise(Spectrogram spectra, double onset, double next)
    {
        var settle = ListeningTable.Of("settle");
        var power = (float)ListeningTable.Of("power");
        var end = Math.Min(onset + ListeningTable.Of("listen"), Math.Max(onset + settle, next - settle));
        var after = spectra.Mean(onset + settle, end);
        var earlier = onset - ListeningTable.Of("before");
        var before = spectra.Mean(earlier, earlier);
        for (var bin = 0; bin < after.Length; bin++)
            after[bin] = MathF.Pow(Math.Max(0, after[bin] - before[bin]), power);
        return after;
    }

    private static Explained Solve(double onset, float[] rise, NoteTemplates templates, double price)
    {
        var total = (double)rise.Sum();
        if (total <= 1e-6)
            return new(onset, rise, 0, [], [], [], []);
        int[] all = [.. Enumerable.Range(0, templates.Count)];
        var wide = Fit(rise, total, all, templates, WideSteps).Amounts;
        int[] likely = [.. all.OrderByDescending(note => wide[note]).Take((int)ListeningTable.Of("candidates"))];
        var chosen = Best(rise, total, likely.Select(note => new[] { note }), templates);
        for (var size = 2; size <= (int)ListeningTable.Of("at-once"); size++)
        {
            // Pairs are all tried; a third note is looked for beside the best pair.
            var sets =
                size == 2
                    ? likely.SelectMany((one, i) => likely.Skip(i + 1).Select(other => new[] { one, other }))
                    : likely.Except(chosen.Notes).Select(note => chosen.Notes.Append(note).ToArray());
            if (chosen.Notes.Length < size - 1)
                break;
            var larger = Best(rise, total, sets, templates);
            if (larger.Cost + price < chosen.Cost * (1 - ListeningTable.Of("share")))
                chosen = larger;
        }
        var gains = chosen
            .Notes.Select(note =>
                (
                    chosen.Notes.Length == 1
                        ? Fit(rise, total, [], templates, 0).Cost
                        : Fit(rise, total, [.. chosen.Notes.Where(one => one != note)], templates, NarrowSteps).Cost
                ) - chosen.Cost
            )
            .ToArray();
        var order = Enumerable.Range(0, chosen.Notes.Length).OrderByDescending(i => chosen.Amounts[i]).ToArray();
        return new(
            onset,
            rise,
            Likeness(rise, chosen.Model),
            [.. order.Select(i => chosen.Notes[i])],
            [.. order.Select(i => chosen.Amounts[i])],
            [.. order.Select(i => gains[i])],
            chosen.Model
        );
    }

    private static (int[] Notes, double[] Amounts, double[] Model, double Cost) Best(
        float[] rise,
        double total,
        IEnumerable<int[]> sets,
        NoteTemplates templates
    ) =>
        sets.Select(notes =>
            {
                var (amounts, model, cost) = Fit(rise, total, notes, templates, NarrowSteps);
                return (Notes: notes, Amounts: amounts, Model: model, Cost: cost);
            })
            .MinBy(fitted => fitted.Cost);

    // The divergence is told as a part of the rise.
    private static (double[] Amounts, double[] Model, double Cost) Fit(
        float[] rise,
        double total,
        int[] notes,
        NoteTemplates templates,
        int steps
    )
    {
        var amounts = new double[notes.Length];
        Array.Fill(amounts, total / Math.Max(1, notes.Length));
        var model = new double[rise.Length];
        for (var step = 0; ; step++)
        {
            Array.Fill(model, Floor * total / rise.Length);
            for (var i = 0; i < notes.Length; i++)
            {
                var shape = templates.Shapes[notes[i]];
                if (amounts[i] > 1e-6 * total)
                    for (var bin = 0; bin < model.Length; bin++)
                        model[bin] += amounts[i] * shape[bin];
            }
            if (step >= steps)
                break;
            for (var i = 0; i < notes.Length; i++)
            {
                if (amounts[i] <= 1e-6 * total)
                    continue;
                var factor = 0.0;
                var shape = templates.Shapes[notes[i]];
                for (var bin = 0; bin < model.Length; bin++)
                    factor += shape[bin] * rise[bin] / model[bin];
                amounts[i] *= factor;
            }
        }
        var cost = 0.0;
        for (var bin = 0; bin < model.Length; bin++)
            cost += (rise[bin] > 0 ? rise[bin] * Math.Log(rise[bin] / model[bin]) : 0) - rise[bin] + model[bin];
        return (amounts, model, cost / total);
    }

    private static double Likeness(float[] rise, double[] model)
    {
        var (both, rises, models) = (0.0, 0.0, 0.0);
        for (var bin = 0; bin < rise.Length; bin++)
        {
            both += rise[bin] * model[bin];
            rises += (double)rise[bin] * rise[bin];
            models += model[bin] * model[bin];
        }
        return both / Math.Sqrt(rises * models);
    }
}
