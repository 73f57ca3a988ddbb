using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Tab;

/// <summary>Spots, the spans in which several licks fit, as brackets above the tab with what is said of them.</summary>
internal static class SpotBrackets
{
    public static void Draw(Sheet sheet, SetSystem system, ImmutableArray<Span> spots, Sizes sizes)
    {
        foreach (var spot in spots)
        {
            if (system.XAt(spot.Bar, spot.At) is not { } from)
                continue;
            var half = sizes.Number * 0.4;
            var left = from - half;
            var right = Math.Max(left + half, (system.XAt(spot.Bar, spot.At + spot.Length) ?? system.Right) - half);
            var words = new Words(InkKind.Spot, spot.Name, left, 0, sizes.SpanName, Face.Italic, Anchor.Left);
            if (words.Box.Right > system.Right)
                words = (Words)words.Moved(system.Right - words.Box.Right, 0);
            var hook = 2.4 * sizes.Scale;
            var lowest = -TabNumbers.HalfHeight(sizes);
            var reach = Math.Max(right, words.Box.Right);
            var y =
                sheet.TopOver(Math.Min(left, words.Box.Left) - sizes.Clear, reach + sizes.Clear, lowest)
                - hook
                - (1.6 * sizes.Scale);
            sheet.Add(
                new Rules(
                    InkKind.Spot,
                    [new(left, y, right, y), new(left, y, left, y + hook), new(right, y, right, y + hook)],
                    sizes.StaffLine
                )
            );
            sheet.Add(words.Moved(0, y - words.Box.Bottom - (1.2 * sizes.Scale)));
        }
    }
}
