using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.TextTab;

/// <summary>The columns of a bar: one a step, or as many more as its strokes need.</summary>
/// <param name="Columns">At least one.</param>
/// <param name="Unit">Whole notes that a column stands for; null where no even grid of a readable size fits.</param>
/// <param name="Times">Whole notes from the start of the bar, one a column.</param>
internal sealed record BarGrid(int Columns, Fraction? Unit, IReadOnlyList<Fraction> Times)
{
    /// <summary>
    /// Beyond this many columns a bar of even grid neither fits a line nor reads well: triplets of eighths in 4/4, our
    /// own choice.
    /// </summary>
    private const int MostColumns = 24;

    // Steps halved for slurs within a step, in three for triplets, and finer.
    private static readonly int[] Parts = [1, 2, 3, 4, 6, 8, 12];

    public static BarGrid Of(BreakBar bar)
    {
        foreach (var parts in Parts)
        {
            var unit = bar.Time.Step / new Fraction(parts);
            var columns = bar.Length / unit;
            var fits = columns.IsWhole && columns <= new Fraction(MostColumns);
            if (fits && bar.Strokes.All(stroke => (stroke.At / unit).IsWhole))
                return new(
                    (int)columns.Numerator,
                    unit,
                    [.. Enumerable.Range(0, (int)columns.Numerator).Select(i => unit * i)]
                );
        }
        // One column a stroke: the order is right, the times are in the other formats.
        var times = bar.Strokes.Select(stroke => stroke.At).Append(Fraction.Zero).Distinct().Order().ToList();
        return new(times.Count, null, times);
    }

    /// <summary>The column at which something of this time stands: its own or the last one before.</summary>
    public int ColumnAt(Fraction time)
    {
        var column = 0;
        while (column + 1 < Columns && Times[column + 1] <= time)
            column++;
        return column;
    }

    /// <summary>
    /// What is counted at a column: "1 &amp; 2 &amp;" where a beat has two steps, "1 e &amp; a" where it has four,
    /// the steps themselves in compound time; nothing between steps.
    /// </summary>
    /// <param name="column">From 0.</param>
    /// <param name="time">The metre.</param>
    /// <param name="offset">Whole notes of the full bar that lie before this one, for a pickup.</param>
    public string Count(int column, TimeSignature time, Fraction offset)
    {
        var at = Times[column] + offset;
        var beat = time.Count;
        var within = at % beat;
        var number = $"{(at / beat).Floor() + 1}";
        if (Unit is null || time.IsCompound || within == Fraction.Zero)
            return within == Fraction.Zero ? number : "";
        var share = within / beat;
        return share == new Fraction(1, 2) ? "&"
            : share == new Fraction(1, 4) ? "e"
            : share == new Fraction(3, 4) ? "a"
            : "";
    }
}
