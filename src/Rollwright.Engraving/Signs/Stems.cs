using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Spacing;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>Stems, and the flags of notes that stand alone.</summary>
internal static class Stems
{
    /// <summary>Staff spaces: an octave (common practice).</summary>
    public const double Usual = 3.5;

    // Bravura's anchors stemUpSE and stemDownNW of black heads, in staff spaces.
    private const double Root = 0.168;

    public static void Draw(Sheet sheet, SetBar bar, Sizes sizes)
    {
        for (var i = 0; i < bar.Columns.Length; i++)
        {
            var moment = bar.Written.Moments[i];
            if (moment.IsRest || moment.Beam >= 0 || !moment.Value.HasStem)
                continue;
            var up = bar.Bar.StemsUp[i];
            var stack = bar.Bar.Stacks[i];
            var length = (Usual + (0.6 * Math.Max(0, moment.Value.Flags - 2))) * sizes.Space;
            var tip = TipOf(stack, up, length, sizes);
            var x = XOf(stack, up, bar.Columns[i], sizes);
            Draw(sheet, stack, up, x, tip, sizes);
            if (moment.Value.Flags > 0)
                sheet.Add(
                    new Sign(InkKind.Flag, Glyph.Flag(moment.Value.Flags, up), x - (sizes.Stem / 2), tip, sizes.Space)
                );
        }
    }

    /// <summary>Draws a stem from its root in the heads to its tip.</summary>
    public static void Draw(Sheet sheet, HeadStack stack, bool up, double x, double tip, Sizes sizes)
    {
        var root = up
            ? Staff.Y(stack.Heads.Min(head => head.Step), sizes) - (Root * sizes.Space)
            : Staff.Y(stack.Heads.Max(head => head.Step), sizes) + (Root * sizes.Space);
        sheet.Add(new Rules(InkKind.Stem, [new(x, root, x, tip)], sizes.Stem));
    }

    /// <summary>Middle of the stem.</summary>
    public static double XOf(HeadStack stack, bool up, double column, Sizes sizes)
    {
        var side = (stack.HeadWidth * sizes.Space / 2) - (sizes.Stem / 2);
        return up ? column + side : column - side;
    }

    /// <summary>Where the stem ends: off its last head, and never short of the middle line.</summary>
    public static double TipOf(HeadStack stack, bool up, double length, Sizes sizes) =>
        up
            ? Math.Min(0, Staff.Y(stack.Heads.Max(head => head.Step), sizes) - length)
            : Math.Max(0, Staff.Y(stack.Heads.Min(head => head.Step), sizes) + length);
}
