using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Tab;

/// <summary>
/// T I M under the tab in a steady row. Fingers of a pinch stand one under the other, in the order of the strings as
/// the tab shows them.
/// </summary>
internal static class RightFingers
{
    /// <param name="top">Where the row starts.</param>
    public static void Draw(Sheet sheet, SetSystem system, double top, Sizes sizes)
    {
        var height = sizes.Finger * Lettering.CapitalHeight;
        foreach (var bar in system.Bars)
        {
            foreach (var (moment, x) in bar.Struck())
            {
                var baseline = top + height;
                foreach (var note in moment.Notes.OrderBy(note => bar.Written.Bar.Strokes[note.Stroke].String))
                {
                    if (bar.Written.Bar.Strokes[note.Stroke].Right is not { } finger)
                        continue;
                    sheet.Add(
                        new Words(
                            InkKind.RightFinger,
                            $"{finger}",
                            x,
                            baseline,
                            sizes.Finger,
                            Face.Roman,
                            Anchor.Middle
                        )
                    );
                    baseline += height + (1.4 * sizes.Scale);
                }
            }
        }
    }
}
