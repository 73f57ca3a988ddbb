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

    /// <param name="Rise">What begins.</param>
    /// <param name="Fit">How alike the rise and the sum of the notes are: the cosine of their angle, 0 to 1.</param>
    /// <param name="Best">The notes that explain it at the least price.</param>
    /// <param name="Ways">All sets of notes that come into question, the cheapest first.</param>
    /// <param name="Model">The sum of the notes and the floor, by bin.</param>
    public sealed record Explained(Rise Rise, double Fit, NoteSet Best, IReadOnlyList<NoteSet> Ways, double[] Model);

    /// <param name="Notes">Indices of templates, ascending.</param>
    /// <param name="Amounts">How much of each.</param>
    /// <param name="Cost">How far off they are from the rise, and their price: the logarithm of its share.</param>
    public sealed record NoteSet(int[] Notes, double[] Amounts, double Cost);

    public static List<Explained> Explain(IEnumerable<Rise> rises, NoteTemplates templates, double price) =>
        [.. rises.Select(rise => Solve(rise, templates, price))];

    private static Explained Solve(Rise rise, NoteTemplates templates, double price)
    {
        var fitter = new Fitter(rise.Spectrum);
        int[] all = [.. Enumerable.Range(0, templates.Count)];
        var wide = fitter.Fit(templates.Shapes, WideSteps).Amounts;
        int[] likely = [.. all.OrderByDescending(note => wide[note]).Take((int)ListeningTable.Of("candidates"))];
        var ways = likely.Select(note => Fitted([note])).ToList();
        // Pairs are all tried; a third note is looked for beside the best pair.
        var pairs = likely.SelectMany((one, i) => likely.Skip(i + 1).Select(other => Fitted([one, other]))).ToList();
        ways.AddRange(pairs.Where(IsEven));
        if ((int)ListeningTable.Of("at-once") > 2 && pairs.Where(IsEven).MinBy(pair => pair.Cost) is { } two)
            ways.AddRange(likely.Except(two.Notes).Select(note => Fitted([.. two.Notes, note])).Where(IsEven));
        ways.Sort((one, other) => one.Cost.CompareTo(other.Cost));
        var model = fitter.Sum(templates.Of(ways[0].Notes), ways[0].Amounts);
        return new(rise, Likeness(rise.Spectrum, model), ways[0], ways, model);

        NoteSet Fitted(int[] notes)
        {
            Array.Sort(notes);
            var (amounts, cost) = fitter.Fit(templates.Of(notes), NarrowSteps);
            var more = notes.Length - 1;
            return new(
                notes,
                amounts,
                Math.Log(cost + (price * more)) - (more * Math.Log(1 - ListeningTable.Of("share")))
            );
        }
    }

    // Notes that begin together are about equally loud; a weak one beside a strong one is a trace of something else.
    private static bool IsEven(NoteSet set) => set.Amounts.Min() >= ListeningTable.Of("keep") * set.Amounts.Max();

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
