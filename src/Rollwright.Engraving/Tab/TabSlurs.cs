using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Tab;

/// <summary>
/// Slurs of the left hand: an arc from number to number, a slanted line for a slide, and the letter in a steady row
/// above the tab.
/// </summary>
internal static class TabSlurs
{
    public static void Draw(Sheet sheet, SetSystem system, ImmutableArray<SlurLink> links, PageStyle style, Sizes sizes)
    {
        var middles = new List<(double X, string Letter)>();
        foreach (var link in links)
        {
            var from = NumberOf(system, link.From, style, sizes);
            var to = NumberOf(system, link.To, style, sizes);
            if (from is null && to is null)
                continue;
            var y = TabStaff.Y((from ?? to)!.Value.String, sizes);
            // A slur over the end of a system is shown by its halves.
            var reach = 3 * sizes.Space;
            var left = from ?? new(to!.Value.X - to.Value.Half - reach, 0, to.Value.String);
            var right = to ?? new(Math.Min(system.Right, left.X + left.Half + reach), 0, left.String);
            if (link.Kind == SlurKind.Slide)
                DrawSlide(sheet, left, right, y, link.Rises, sizes);
            else
                DrawArc(sheet, left, right, y, sizes);
            if (to is not null)
                middles.Add(((left.X + right.X) / 2, SlurNames.Letter(link.Kind)));
        }
        DrawLetters(sheet, middles, sizes);
    }

    private static void DrawSlide(Sheet sheet, Number left, Number right, double y, bool rises, Sizes sizes)
    {
        var gap = 0.9 * sizes.Scale;
        var tilt = (rises ? 1.9 : -1.9) * sizes.Scale;
        sheet.Add(
            new Rules(
                InkKind.TabSlur,
                [new(left.X + left.Half + gap, y + tilt, right.X - right.Half - gap, y - tilt)],
                0.9 * sizes.Scale
            )
        );
    }

    // Above the numbers; below them where a number of the next string stands in the way.
    private static void DrawArc(Sheet sheet, Number left, Number right, double y, Sizes sizes)
    {
        var off = TabNumbers.HalfHeight(sizes) + (0.5 * sizes.Scale);
        var rise = 2.6 * sizes.Scale;
        var above = Arcs.Between(InkKind.TabSlur, new(left.X, y - off), new(right.X, y - off), -rise, sizes);
        var below = Arcs.Between(
            InkKind.TabSlur,
            new(left.X, y + off + (1.6 * sizes.Scale)),
            new(right.X, y + off + (1.6 * sizes.Scale)),
            rise,
            sizes
        );
        var blocked = sheet.Inks.Any(ink => ink.Kind == InkKind.TabNumber && ink.Box.Overlaps(above.Box));
        sheet.Add(blocked ? below : above);
    }

    private static void DrawLetters(Sheet sheet, List<(double X, string Letter)> middles, Sizes sizes)
    {
        if (middles.Count == 0)
            return;
        var half = sizes.SlurLetter * 0.6;
        var lowest = -TabNumbers.HalfHeight(sizes);
        var baseline = middles.Min(item => sheet.TopOver(item.X - half, item.X + half, lowest)) - (1.6 * sizes.Scale);
        foreach (var (x, letter) in middles)
            sheet.Add(new Words(InkKind.SlurLetter, letter, x, baseline, sizes.SlurLetter, Face.Italic, Anchor.Middle));
    }

    private static Number? NumberOf(SetSystem system, StrokeName name, PageStyle style, Sizes sizes)
    {
        if (system.ColumnOf(name.Bar, name.Index) is not { } x)
            return null;
        var stroke = system.Bars.First(bar => bar.Written.Index == name.Bar).Written.Bar.Strokes[name.Index];
        return new(x, TabNumbers.WidthOf(stroke, style, sizes) / 2, stroke.String);
    }

    private readonly record struct Number(double X, double Half, int String);
}
