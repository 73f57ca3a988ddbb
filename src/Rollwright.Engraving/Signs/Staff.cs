using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>The five lines of the notation. The middle line is y = 0 of its sheet.</summary>
internal static class Staff
{
    public static double Top(Sizes sizes) => -2 * sizes.Space;

    public static double Bottom(Sizes sizes) => 2 * sizes.Space;

    /// <summary>Height of a staff step above the middle line.</summary>
    public static double Y(int step, Sizes sizes) => -step * sizes.Space / 2;

    public static void Draw(Sheet sheet, SetSystem system, Sizes sizes) =>
        sheet.Add(
            new Rules(
                InkKind.StaffLine,
                [
                    .. Enumerable
                        .Range(-2, 5)
                        .Select(line => new Segment(system.Left, line * sizes.Space, system.Right, line * sizes.Space)),
                ],
                sizes.StaffLine
            )
        );
}
