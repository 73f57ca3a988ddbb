using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;
using Rollwright.Engraving.Drawing;
using Rollwright.Music.Metre;

namespace Rollwright.Web.State;

/// <summary>Where the steps of a break stand in its drawing: also those at which nothing is struck.</summary>
/// <param name="Width">Of the drawing, in its points.</param>
/// <param name="Height">Of the drawing.</param>
/// <param name="Boxes">One a step: a column from the top of the upper staff to below the fingers.</param>
public sealed record StepPlaces(double Width, double Height, ImmutableArray<Box> Boxes)
{
    // In the drawing's points at scale 1: half the room of a number, and that of the fingers under the tab.
    private const double HalfColumn = 6.5;
    private const double BelowTab = 17;
    private const double AboveStaff = 6;

    public static StepPlaces Of(Layout layout, StepGrid grid, double scale)
    {
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(grid);
        var boxes = ImmutableArray.CreateBuilder<Box>(grid.Steps.Length);
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
                boxes.Add(
                    new(x - half, bar.Box.Top - (AboveStaff * scale), x + half, bar.Box.Bottom + (BelowTab * scale))
                );
            }
        }
        var page = layout.Pages[0];
        return new(page.Width, page.Height, boxes.MoveToImmutable());
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
