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
/// Slurs of the left hand: an arc from number to number or a slanted line for a slide, each with its letter right at it,
/// so that it is plain which slur a letter names where many follow each other.
/// </summary>
internal static class TabSlurs
{
    public static void Draw(Sheet sheet, SetSystem system, ImmutableArray<SlurLink> links, PageStyle style, Sizes sizes)
    {
        var drawn = new List<(Ink Ink, double Y, bool Above, string Letter)>();
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
            var above = true;
            Ink ink;
            if (link.Kind == SlurKind.Slide)
                ink = Slide(left, right, y, link.Rises, sizes);
            else
                (ink, above) = Arc(sheet, left, right, y, sizes);
            sheet.Add(ink);
            if (to is not null)
                drawn.Add((ink, y, above, SlurNames.Letter(link.Kind)));
        }
        foreach (var (ink, y, above, letter) in drawn)
            sheet.Add(LetterAt(sheet, ink, y, above, letter, sizes));
    }

    private static Rules Slide(Number left, Number right, double y, bool rises, Sizes sizes)
    {
        var gap = 0.9 * sizes.Scale;
        var tilt = (rises ? 1.9 : -1.9) * sizes.Scale;
        return new(
            InkKind.TabSlur,
            [new(left.X + left.Half + gap, y + tilt, right.X - right.Half - gap, y - tilt)],
            0.9 * sizes.Scale
        );
    }

    // Above the numbers; below them where a number of the next string stands in the way.
    private static (Shape Arc, bool Above) Arc(Sheet sheet, Number left, Number right, double y, Sizes sizes)
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
        return blocked ? (below, false) : (above, true);
    }

    // Outside the arc; where a number or another letter is in the way, on the other side; at last on the string itself,
    // between the two numbers, where nothing else can stand.
    private static Words LetterAt(Sheet sheet, Ink ink, double y, bool above, string letter, Sizes sizes)
    {
        var gap = 0.5 * sizes.Scale;
        var middle = (ink.Box.Left + ink.Box.Right) / 2;
        var word = new Words(InkKind.SlurLetter, letter, middle, 0, sizes.SlurLetter, Face.Italic, Anchor.Middle);
        // Small letters end below the capitals' height.
        var height = sizes.SlurLetter * (letter is "p" or "s" ? 0.5 : Lettering.CapitalHeight);
        var over = ink.Box.Top - gap - word.Box.Bottom;
        var under = ink.Box.Bottom + gap + height;
        var between = y + (height / 2);
        foreach (var baseline in above ? new[] { over, under } : [under, over])
        {
            foreach (var x in Middles(sheet, ink, word, gap))
            {
                var placed = (Words)word.Moved(x - middle, baseline);
                if (!sheet.Inks.Any(other => IsInTheWay(other) && other.Box.Grown(gap).Overlaps(placed.Box)))
                    return placed;
            }
        }
        return (Words)word.Moved(Middles(sheet, ink, word, gap).Last() - middle, between);

        bool IsInTheWay(Ink other) =>
            !ReferenceEquals(other, ink)
            && other.Kind
                is InkKind.TabNumber
                    or InkKind.MelodyLine
                    or InkKind.SlurLetter
                    or InkKind.TabSlur
                    or InkKind.BarLine;
    }

    // The middle of the slur, or beside the bar line that it goes over.
    private static IEnumerable<double> Middles(Sheet sheet, Ink ink, Words word, double gap)
    {
        var lines = sheet
            .Inks.Where(other =>
                other.Kind == InkKind.BarLine && other.Box.Left < ink.Box.Right && ink.Box.Left < other.Box.Right
            )
            .Select(other => other.Box)
            .ToList();
        if (!lines.Exists(line => line.Grown(gap).Left < word.Box.Right && word.Box.Left < line.Grown(gap).Right))
            yield return word.X;
        if (lines.Count == 0)
            yield break;
        var off = (word.Box.Width / 2) + (2 * gap);
        yield return lines.Max(line => line.Right) + off;
        yield return lines.Min(line => line.Left) - off;
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
