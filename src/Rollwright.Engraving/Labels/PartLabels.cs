using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Labels;

/// <summary>Letters of parts in a frame, above where the part starts.</summary>
internal static class PartLabels
{
    public static void Draw(Sheet sheet, SetSystem system, double lowest, Sizes sizes)
    {
        foreach (var bar in system.Bars)
        {
            if (bar.Written.Bar.Marks.Part is not { Length: > 0 } part)
                continue;
            var inside = 2.6 * sizes.Scale;
            var height = (sizes.Part * Lettering.CapitalHeight) + (2 * inside);
            var width = Math.Max(height, Lettering.WidthOf(part, sizes.Part, Face.Bold) + (2 * inside));
            var left = bar == system.Bars[0] ? system.Left : bar.Left;
            var bottom = sheet.TopOver(left - sizes.Clear, left + width + sizes.Clear, lowest) - (3.2 * sizes.Scale);
            var (right, top) = (left + width, bottom - height);
            sheet.Add(
                new Words(
                    InkKind.PartLabel,
                    part,
                    left + (width / 2),
                    bottom - inside,
                    sizes.Part,
                    Face.Bold,
                    Anchor.Middle
                )
            );
            sheet.Add(
                new Rules(
                    InkKind.PartLabel,
                    [
                        new(left, top, right, top),
                        new(right, top, right, bottom),
                        new(right, bottom, left, bottom),
                        new(left, bottom, left, top),
                    ],
                    sizes.ThinBarLine
                )
            );
        }
    }
}
