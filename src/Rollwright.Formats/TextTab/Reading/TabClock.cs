using Rollwright.Formats.Abc;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>From the columns of a bar to whole notes: along the count below it, else by even spacing.</summary>
/// <param name="Length">Whole notes of the bar.</param>
/// <param name="Points">Columns and whole notes from the start of the bar, at least two, rising; between them time is even.</param>
/// <param name="Snap">Whole notes of the grid that times are brought to.</param>
internal sealed record TabClock(Fraction Length, IReadOnlyList<(int Column, Fraction At)> Points, Fraction Snap)
{
    public Fraction At(int column)
    {
        var exact = Exact(column);
        var parts = (exact / Snap + new Fraction(1, 2)).Floor();
        var last = (Length / Snap).Floor() - ((Length / Snap).IsWhole ? 1 : 0);
        return Snap * Math.Clamp(parts, 0, Math.Max(0, last));
    }

    private Fraction Exact(int column) => Line(Points, column);

    /// <summary>Along the count: its first columns say where time stands, the rate goes on beyond them.</summary>
    /// <param name="bar">The bar.</param>
    /// <param name="counts">What is counted at which column, in whole notes of the full bar; at least two, rising.</param>
    /// <param name="lead">Columns from the left of a bar to its first step.</param>
    /// <param name="time">The metre.</param>
    public static TabClock Counted(
        TabBar bar,
        IReadOnlyList<(int Column, Fraction At)> counts,
        int lead,
        TimeSignature time
    )
    {
        var start = Fraction.Max(Fraction.Zero, Line(counts, bar.Start + lead));
        var end = Line(counts, bar.End + lead);
        var length = Near(end - start, time);
        var points = counts.Select(one => (one.Column, At: one.At - start)).Where(one => one.At < length).ToList();
        // A count from beyond the metre says nothing.
        if (points.Count == 0)
            points.Add((bar.Start + lead, Fraction.Zero));
        points.Add((Math.Max(bar.End + lead, points[^1].Column + 1), length));
        return new(length, points, Grid(time));
    }

    /// <summary>
    /// Of a bar where one thing is counted: a lead-in lasts from there to the end of the full bar, what begins with 1 a beat.
    /// </summary>
    public static TabClock CountedOnce(TabBar bar, (int Column, Fraction At) count, int lead, TimeSignature time)
    {
        var beat = time.IsCompound ? new Fraction(1, time.Unit) : time.Beat;
        var length = count.At > Fraction.Zero && count.At < time.Bar ? time.Bar - count.At : beat;
        return new(
            length,
            [(count.Column, Fraction.Zero), (Math.Max(count.Column + 1, bar.End + lead), length)],
            Grid(time)
        );
    }

    /// <summary>By even spacing: the coarsest grid that its numbers lie on.</summary>
    public static TabClock Spaced(
        TabBar bar,
        IReadOnlyCollection<int> columns,
        int lead,
        Fraction length,
        TimeSignature time
    )
    {
        foreach (var parts in (ReadOnlySpan<int>)[1, 2, 3, 4, 6, 8, 12])
        {
            var unit = time.Step / new Fraction(parts);
            var cells = (int)Math.Max(1, (length / unit).Floor());
            // A line may end with a dash more than its last step has.
            foreach (var width in (ReadOnlySpan<int>)[bar.Width, bar.Width - lead, bar.Width - 1])
            {
                var cell = (double)width / cells;
                if (cell >= 1 && columns.All(column => IsOn(column - bar.Start - lead, cell, cells)))
                    return new(length, [(bar.Start + lead, Fraction.Zero), (bar.Start + lead + width, length)], unit);
            }
        }
        return new(length, [(bar.Start + lead, Fraction.Zero), (bar.End + lead, length)], time.Step / new Fraction(2));
    }

    private static bool IsOn(int column, double cell, int cells)
    {
        var step = Math.Round(column / cell);
        return step >= 0 && step < cells && Math.Abs(column - (step * cell)) <= Math.Min(0.34, cell / 4);
    }

    // Beyond the points the rate of the nearest two goes on.
    private static Fraction Line(IReadOnlyList<(int Column, Fraction At)> points, int column)
    {
        var i = 1;
        while (i + 1 < points.Count && points[i].Column < column)
            i++;
        var (from, to) = (points[i - 1], points[i]);
        return from.At + ((to.At - from.At) * new Fraction(column - from.Column, to.Column - from.Column));
    }

    // A bar that has no whole number of steps and fills most of its metre fills it: few pages are spaced to the column, and
    // where no even grid holds a bar its count is not even either.
    private static Fraction Near(Fraction length, TimeSignature time)
    {
        var isNear = length * 3 > time.Bar * 2 && length * 3 < time.Bar * 4;
        if (isNear && !(length / time.Step).IsWhole)
            return time.Bar;
        var grid = Grid(time);
        var parts = (length / grid + new Fraction(1, 2)).Floor();
        return grid * Math.Clamp(parts, 1, (new Fraction(AbcLimits.LongestBar) / grid).Floor());
    }

    // Steps in twelve: halves for slurs, thirds for triplets, quarters.
    private static Fraction Grid(TimeSignature time) => time.Step / new Fraction(12);
}
