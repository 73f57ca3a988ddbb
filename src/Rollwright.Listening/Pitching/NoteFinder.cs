using Rollwright.Listening.Spectra;

namespace Rollwright.Listening.Pitching;

/// <summary>
/// Which notes begin at an onset: the smallest set of notes that explains the rise of the spectrum. All notes together are
/// fitted first, to see which come into question; then sets of one, two and three of those are fitted by themselves, and
/// each further note has its price.
/// </summary>
internal static class NoteFinder
{
    private const int WideSteps = 25;
    private const int NarrowSteps = 20;

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

    public static List<Explained> Explain(Spectrogram spectra, IReadOnlyList<double> onsets, NoteTemplates templates, double price)
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
        if (rise.Sum() <= 1e-6)
            return new(onset, rise, 0, [], [], [], []);
        var fitter = new Fitter(rise);
        int[] all = [.. Enumerable.Range(0, templates.Count)];
        var wide = fitter.Fit(templates.Shapes, WideSteps).Amounts;
        int[] likely = [.. all.OrderByDescending(note => wide[note]).Take((int)ListeningTable.Of("candidates"))];
        var chosen = Best(fitter, likely.Select(note => new[] { note }), templates);
        for (var size = 2; size <= (int)ListeningTable.Of("at-once"); size++)
        {
            // Pairs are all tried; a third note is looked for beside the best pair.
            var sets =
                size == 2
                    ? likely.SelectMany((one, i) => likely.Skip(i + 1).Select(other => new[] { one, other }))
                    : likely.Except(chosen.Notes).Select(note => chosen.Notes.Append(note).ToArray());
            if (chosen.Notes.Length < size - 1)
                break;
            var larger = Best(fitter, sets, templates);
            if (larger.Cost + price < chosen.Cost * (1 - ListeningTable.Of("share")))
                chosen = larger;
        }
        var gains = chosen
            .Notes.Select(note =>
                fitter.Fit(templates.Of(chosen.Notes.Where(one => one != note)), NarrowSteps).Cost - chosen.Cost
            )
            .ToArray();
        var order = Enumerable.Range(0, chosen.Notes.Length).OrderByDescending(i => chosen.Amounts[i]).ToArray();
        var model = fitter.Sum(templates.Of(chosen.Notes), chosen.Amounts);
        return new(
            onset,
            rise,
            Likeness(rise, model),
            [.. order.Select(i => chosen.Notes[i])],
            [.. order.Select(i => chosen.Amounts[i])],
            [.. order.Select(i => gains[i])],
            model
        );
    }

    private static (int[] Notes, double[] Amounts, double Cost) Best(
        Fitter fitter,
        IEnumerable<int[]> sets,
        NoteTemplates templates
    ) =>
        sets.Select(notes =>
            {
                var (amounts, cost) = fitter.Fit(templates.Of(notes), NarrowSteps);
                return (Notes: notes, Amounts: amounts, Cost: cost);
            })
            .MinBy(fitted => fitted.Cost);

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
