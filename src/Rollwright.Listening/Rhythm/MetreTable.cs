using Rollwright.Banjo.Data;
using Rollwright.Music.Metre;

namespace Rollwright.Listening.Rhythm;

/// <summary>
/// How likely each kind of beginning is at each place of a bar: of a line alone <c>data/metres.txt</c>, of a banjo's breaks
/// <c>data/take-metres.txt</c>.
/// </summary>
/// <param name="Time">The metre.</param>
/// <param name="Kinds">By step of the bar, by kind: natural logarithms of odds against its share in all tunes.</param>
/// <param name="First">By step: the tune's first note stands there; natural logarithms of chance.</param>
/// <param name="Last">By step: the last note.</param>
internal sealed record MetreTable(TimeSignature Time, double[][] Kinds, double[] First, double[] Last)
{
    /// <summary>Names of the kinds of a line alone: see <see cref="Melodies.MetreEvidence"/>.</summary>
    public static readonly string[] LineKinds = ["none", "short", "two", "long", "leap-short", "leap-two", "leap-long"];

    /// <summary>Names of the kinds of a banjo's take: see <see cref="TakeEvidence"/>.</summary>
    public static readonly string[] TakeKinds = ["none", "pinch", "drone", "slur", "slurred", "low", "other"];

    private static readonly Lazy<MetreTable[]> KnownLines = new(() => BuiltIn("metres.txt", LineKinds));
    private static readonly Lazy<MetreTable[]> KnownTakes = new(() => BuiltIn("take-metres.txt", TakeKinds));

    public static IReadOnlyList<MetreTable> OfLines => KnownLines.Value;

    public static IReadOnlyList<MetreTable> OfTakes => KnownTakes.Value;

    /// <summary>Metre, place, the kinds, and first and last.</summary>
    public static string[] Columns(string[] kinds) => ["metre", "step", .. kinds, "first", "last"];

    /// <summary>
    /// The mean of the steps' odds; what the first and the last note say weighs as so many steps.
    /// </summary>
    /// <param name="kinds">Of each step from the first note's on.</param>
    /// <param name="first">The step at which the first whole bar begins, from 0 up to the bar's steps.</param>
    /// <param name="edge">The weight of the first and the last note.</param>
    public double Likelihood(int[] kinds, int first, double edge)
    {
        var steps = Kinds.Length;
        int Place(int step) => (step - first + steps) % steps;
        var sum = 0.0;
        for (var i = 0; i < kinds.Length; i++)
            sum += Kinds[Place(i)][kinds[i]];
        var edges = First[Place(0)] + Last[Place(kinds.Length - 1)] + (2 * Math.Log(steps));
        return (sum + (edge * edges)) / kinds.Length;
    }

    /// <summary>How much of a line comes again after four, eight or sixteen bars of the metre: 0 to 1.</summary>
    /// <param name="line">What begins at each step; 0 for nothing.</param>
    public double Returning(int[] line) => new[] { 4, 8, 16 }.Max(bars => Returning(line, bars * Kinds.Length));

    /// <summary>How often a step's kind is that of the bar before, or of the one before that, whichever is more: 0 to 1.</summary>
    public double Rolling(int[] kinds) => Math.Max(Same(kinds, Kinds.Length), Same(kinds, 2 * Kinds.Length));

    /// <summary>How often a step's kind is that of the step so many before: 0 to 1.</summary>
    public static double Same(int[] kinds, int lag) =>
        kinds.Length <= lag
            ? 0
            : (double)Enumerable.Range(lag, kinds.Length - lag).Count(i => kinds[i] == kinds[i - lag])
                / (kinds.Length - lag);

    // The part of steps with a note whose note is there again so many steps later.
    private static double Returning(int[] line, int lag)
    {
        var (same, count) = (0, 0);
        for (var i = 0; i + lag < line.Length; i++)
        {
            if (line[i] == 0 && line[i + lag] == 0)
                continue;
            count++;
            same += line[i] == line[i + lag] ? 1 : 0;
        }
        return count < 8 ? 0 : (double)same / count;
    }

    private static MetreTable[] BuiltIn(string file, string[] kinds) => Read(file, BuiltInData.Text(file), kinds);

    /// <exception cref="DataException">A row is wrong.</exception>
    public static MetreTable[] Read(string file, string text, string[] kinds) =>
        [
            .. DataTable
                .Parse(file, text, Columns(kinds))
                .Rows.GroupBy(row => row["metre"], StringComparer.Ordinal)
                .Select(rows => new MetreTable(
                    Read(rows.Key),
                    [.. rows.Select(row => kinds.Select(row.Number).ToArray())],
                    [.. rows.Select(row => row.Number("first"))],
                    [.. rows.Select(row => row.Number("last"))]
                )),
        ];

    private static TimeSignature Read(string text)
    {
        var parts = text.Split('/');
        return new(
            int.Parse(parts[0], System.Globalization.CultureInfo.InvariantCulture),
            int.Parse(parts[1], System.Globalization.CultureInfo.InvariantCulture)
        );
    }
}
