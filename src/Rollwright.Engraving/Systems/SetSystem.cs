using System.Collections.Immutable;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Spacing;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Systems;

/// <summary>A bar whose columns have their places, in points from the page's left edge.</summary>
/// <param name="Bar">What stands in it.</param>
/// <param name="Left">Where its room starts.</param>
/// <param name="Right">The right edge of its closing line.</param>
/// <param name="Columns">Middle of each moment.</param>
internal sealed record SetBar(MeasuredBar Bar, double Left, double Right, ImmutableArray<double> Columns)
{
    public WrittenBar Written => Bar.Written;

    /// <summary>Middle of a column; of a rest that stands alone in the middle of the bar, where the bar's music starts.</summary>
    public double FrontOf(int column) => column == 0 ? Left + Bar.Front : Columns[column];

    /// <summary>Where a time stands, between two columns by the time between them.</summary>
    public double XAt(Fraction at)
    {
        var moments = Written.Moments;
        var i = moments.Length - 1;
        while (i > 0 && moments[i].At > at)
            i--;
        if (i < 0)
            return Left + Bar.Front;
        var x = FrontOf(i);
        var next = i + 1 < moments.Length ? Columns[i + 1] : Right - Bar.Back;
        return x + ((next - x) * ((at - moments[i].At) / moments[i].Length).ToDouble());
    }

    /// <summary>Moments that strokes start at, with their middle.</summary>
    public IEnumerable<(WrittenMoment Moment, double X)> Struck()
    {
        for (var i = 0; i < Columns.Length; i++)
        {
            if (Written.Moments[i].IsStruck)
                yield return (Written.Moments[i], Columns[i]);
        }
    }
}

/// <summary>A system whose bars have their places.</summary>
/// <param name="Index">Counted from 0 through the whole piece.</param>
/// <param name="Left">Left end of the staves.</param>
/// <param name="Right">Right end of the staves.</param>
/// <param name="Bars">At least one.</param>
/// <param name="IsLast">Whether the piece ends here.</param>
internal sealed record SetSystem(int Index, double Left, double Right, ImmutableArray<SetBar> Bars, bool IsLast)
{
    public bool IsFirst => Index == 0;

    /// <summary>
    /// Where a time of a bar stands, between two columns by the time between them; times behind the bar's end are looked
    /// for in the bars that follow. Null where it is in another system.
    /// </summary>
    public double? XAt(int bar, Fraction at)
    {
        foreach (var set in Bars)
        {
            if (set.Written.Index != bar)
                continue;
            if (at <= set.Written.Bar.Length)
                return set.XAt(at);
            (bar, at) = (bar + 1, at - set.Written.Bar.Length);
        }
        return null;
    }

    /// <summary>The middle of a stroke's column; null where it stands in another system.</summary>
    public double? ColumnOf(int bar, int stroke)
    {
        foreach (var set in Bars)
        {
            if (set.Written.Index != bar)
                continue;
            foreach (var (moment, x) in set.Struck())
            {
                if (moment.Notes.Any(note => note.Stroke == stroke))
                    return x;
            }
        }
        return null;
    }
}
