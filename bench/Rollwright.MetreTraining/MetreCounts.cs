using System.Globalization;
using System.Text;
using Rollwright.Listening.Rhythm;
using Rollwright.Music.Metre;

namespace Rollwright.MetreTraining;

/// <summary>Counts kinds of beginnings by their place in the bar, of one metre after the other, and writes the table of them.</summary>
internal sealed class MetreCounts(string[] kinds)
{
    private readonly Dictionary<TimeSignature, (double[][] Kinds, double[] First, double[] Last)> rows = [];

    /// <summary>Every count begins at one.</summary>
    public void Open(TimeSignature time, int steps) =>
        rows[time] = ([.. Enumerable.Range(0, steps).Select(_ => Ones(kinds.Length))], Ones(steps), Ones(steps));

    /// <param name="time">The metre.</param>
    /// <param name="start">The step of the bar at which the line begins.</param>
    /// <param name="line">The kind at each step.</param>
    public void Add(TimeSignature time, int start, int[] line)
    {
        var (counts, first, last) = rows[time];
        var steps = counts.Length;
        for (var i = 0; i < line.Length; i++)
            counts[(start + i) % steps][line[i]]++;
        first[start % steps]++;
        last[(start + line.Length - 1) % steps]++;
    }

    /// <param name="about">Lines of comment that stand above.</param>
    public string Table(string about)
    {
        // Metres weigh alike, however many tunes they have.
        var all = new double[kinds.Length];
        foreach (var (counts, _, _) in rows.Values)
        foreach (var row in counts)
            for (var kind = 0; kind < all.Length; kind++)
                all[kind] += row[kind] / counts.Sum(one => one.Sum());
        var text = new StringBuilder(about).Append(Line(MetreTable.Columns(kinds)));
        foreach (var (time, (counts, first, last)) in rows)
            for (var step = 0; step < counts.Length; step++)
                text.Append(
                    Line([
                        $"{time}",
                        $"{step}",
                        .. counts[step]
                            .Select(
                                (value, kind) => Number(Math.Log(value / counts[step].Sum() / (all[kind] / all.Sum())))
                            ),
                        Number(Math.Log(first[step] / first.Sum())),
                        Number(Math.Log(last[step] / last.Sum())),
                    ])
                );
        return text.ToString();
    }

    private static double[] Ones(int count) => [.. Enumerable.Repeat(1.0, count)];

    private static string Line(IEnumerable<string> cells) =>
        string.Join(" | ", cells.Select(cell => cell.PadLeft(10))) + "\n";

    private static string Number(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);
}
