using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Forms;

namespace Rollwright.Engraving.Signs;

/// <summary>Bar lines, double and final lines, repeats with their dots.</summary>
internal static class BarLines
{
    /// <summary>Points that the sign at the start of a bar takes.</summary>
    public static double StartWidth(BarMarks marks, Sizes sizes) => marks.RepeatStart ? RepeatWidth(sizes) : 0;

    /// <summary>Points that the sign at the end of a bar takes.</summary>
    public static double EndWidth(BarMarks marks, Sizes sizes) =>
        marks.RepeatEnd > 1 ? RepeatWidth(sizes)
        : marks.SectionEnd ? (2 * sizes.ThinBarLine) + sizes.BarLineGap
        : sizes.ThinBarLine;

    /// <summary>Draws the lines of one staff.</summary>
    /// <param name="top">Height of the staff's top line.</param>
    /// <param name="bottom">Height of the staff's bottom line.</param>
    public static void Draw(Sheet sheet, SetSystem system, double top, double bottom, Sizes sizes)
    {
        for (var i = 0; i < system.Bars.Length; i++)
        {
            var bar = system.Bars[i];
            var marks = bar.Written.Bar.Marks;
            if (marks.RepeatStart)
            {
                // One thick line serves the repeat that ends and the repeat that starts.
                var shared = i > 0 && system.Bars[i - 1].Written.Bar.Marks.RepeatEnd > 1;
                DrawRepeat(sheet, bar.Left - (shared ? sizes.ThickBarLine : 0), 1, top, bottom, sizes);
            }
            var next = i + 1 < system.Bars.Length ? system.Bars[i + 1].Written.Bar.Marks : null;
            if (marks.RepeatEnd > 1)
                DrawRepeat(sheet, bar.Right, -1, top, bottom, sizes);
            else if (system.IsLast && next is null)
                DrawFinal(sheet, bar.Right, top, bottom, sizes);
            else if (next is not { RepeatStart: true })
                DrawPlain(sheet, bar.Right, marks.SectionEnd, top, bottom, sizes);
        }
    }

    private static double RepeatWidth(Sizes sizes) =>
        sizes.ThickBarLine
        + (2 * sizes.BarLineGap)
        + sizes.ThinBarLine
        + (MusicFont.WidthOf(Glyph.RepeatDot) * sizes.Space);

    // From the thick line towards the bar that is repeated: rightwards (1) or leftwards (-1).
    private static void DrawRepeat(Sheet sheet, double x, int way, double top, double bottom, Sizes sizes)
    {
        Line(sheet, x + (way * sizes.ThickBarLine / 2), sizes.ThickBarLine, top, bottom);
        x += way * (sizes.ThickBarLine + sizes.BarLineGap);
        Line(sheet, x + (way * sizes.ThinBarLine / 2), sizes.ThinBarLine, top, bottom);
        x += way * (sizes.ThinBarLine + sizes.BarLineGap);
        var width = MusicFont.WidthOf(Glyph.RepeatDot) * sizes.Space;
        var left = way > 0 ? x : x - width;
        var space = (bottom - top) / 4;
        foreach (var y in new[] { ((top + bottom) / 2) - (space / 2), ((top + bottom) / 2) + (space / 2) })
        {
            // The dot's origin may lie off its middle: the box tells.
            var box = MusicFont.BoxOf(Glyph.RepeatDot, 0, 0, sizes.Space);
            sheet.Add(new Sign(InkKind.BarLine, Glyph.RepeatDot, left, y - ((box.Top + box.Bottom) / 2), sizes.Space));
        }
    }

    private static void DrawFinal(Sheet sheet, double right, double top, double bottom, Sizes sizes)
    {
        Line(sheet, right - (sizes.ThickBarLine / 2), sizes.ThickBarLine, top, bottom);
        var x = right - sizes.ThickBarLine - sizes.BarLineGap - (sizes.ThinBarLine / 2);
        Line(sheet, x, sizes.ThinBarLine, top, bottom);
    }

    private static void DrawPlain(Sheet sheet, double right, bool twice, double top, double bottom, Sizes sizes)
    {
        var x = right - (sizes.ThinBarLine / 2);
        Line(sheet, x, sizes.ThinBarLine, top, bottom);
        if (twice)
            Line(sheet, x - sizes.ThinBarLine - sizes.BarLineGap, sizes.ThinBarLine, top, bottom);
    }

    private static void Line(Sheet sheet, double x, double thickness, double top, double bottom) =>
        sheet.Add(new Rules(InkKind.BarLine, [new(x, top, x, bottom)], thickness));
}
