using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Tunings;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Music.Metre;

namespace Rollwright.Web.State;

/// <summary>Where the steps of a break stand in its drawing: also those at which nothing is struck.</summary>
/// <param name="Width">Of the drawing, in its points.</param>
/// <param name="Height">Of the drawing.</param>
/// <param name="Boxes">One a step: a column from the top of the upper staff to below the fingers.</param>
/// <param name="Tabs">Of each step, the height of string 1's line and of string 5's.</param>
public sealed record StepPlaces(
    double Width,
    double Height,
    ImmutableArray<Box> Boxes,
    ImmutableArray<(double Top, double Bottom)> Tabs
)
{
    // In the drawing's points at scale 1: half the room of a number, and that of the fingers under the tab.
    private const double HalfColumn = 6.5;
    private const double BelowTab = 17;
    private const double AboveStaff = 6;

    // The same where stems for the rhythm stand between.
    private const double BelowStems = 34;

    public static StepPlaces Of(Layout layout, StepGrid grid, PageStyle style)
    {
        ArgumentNullException.ThrowIfNull(style);
        var (scale, below) = (style.Scale, style.ShowNotation ? BelowTab : BelowStems);
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(grid);
        var boxes = ImmutableArray.CreateBuilder<Box>(grid.Steps.Length);
        var tabs = ImmutableArray.CreateBuilder<(double Top, double Bottom)>(grid.Steps.Length);
        var strokes = layout.Strokes.ToLookup(place => place.Stroke.Bar);
        foreach (var bar in layout.Bars)
        {
            var known = strokes[bar.Bar]
                .Select(place => (place.At, place.X))
                .Distinct()
                .OrderBy(place => place.At)
                .ToArray();
            for (var step = grid.FirstOf(bar.Bar); step < grid.Bars[bar.Bar].End.Value; step++)
            {
                var x = XOf(grid.Steps[step], known, bar.Box, grid, bar.Bar);
                var half = HalfColumn * scale;
                tabs.Add((bar.Box.Bottom - (Engraver.TabHeight * scale), bar.Box.Bottom));
                boxes.Add(
                    new(x - half, bar.Box.Top - (AboveStaff * scale), x + half, bar.Box.Bottom + (below * scale))
                );
            }
        }
        var page = layout.Pages[0];
        return new(page.Width, page.Height, boxes.MoveToImmutable(), tabs.MoveToImmutable());
    }

    /// <summary>The height of a string at a step.</summary>
    public double StringAt(int step, int banjoString)
    {
        var (top, bottom) = Tabs[step];
        return top + ((bottom - top) * (banjoString - 1) / (Neck.Strings - 1));
    }

    /// <summary>The step nearest to a point of the drawing: first the line of music, then the column.</summary>
    public int Nearest(double x, double y)
    {
        var nearest = 0;
        var least = (Lines: double.MaxValue, Columns: double.MaxValue);
        for (var step = 0; step < Boxes.Length; step++)
        {
            var box = Boxes[step];
            var away = (Math.Max(0, Math.Max(box.Top - y, y - box.Bottom)), Math.Abs(x - ((box.Left + box.Right) / 2)));
            if (away.CompareTo(least) >= 0)
                continue;
            least = away;
            nearest = step;
        }
        return nearest;
    }

    // Where something is struck within the step, there; else between its neighbours by time.
    private static double XOf(StepPlace step, (Fraction At, double X)[] known, Box bar, StepGrid grid, int index)
    {
        var before = (At: Fraction.Zero, X: bar.Left + (2 * HalfColumn));
        foreach (var place in known)
        {
            if (place.At >= step.At && place.At < step.At + step.Length)
                return place.X;
            if (place.At < step.At)
                before = place;
        }
        var last = grid.Steps[grid.Bars[index].End.Value - 1];
        var after = known
            .Where(place => place.At > step.At)
            .Append((last.At + last.Length, bar.Right - HalfColumn))
            .First();
        var share = ((step.At - before.At) / (after.Item1 - before.At)).ToDouble();
        return before.X + (share * (after.Item2 - before.X));
    }
}
