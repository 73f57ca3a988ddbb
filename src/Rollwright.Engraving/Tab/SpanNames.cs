using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Tab;

/// <summary>Names of rolls and licks above the tab, in small italics; what goes on is not said again.</summary>
internal static class SpanNames
{
    public static void Draw(Sheet sheet, SetSystem system, Break played, Sizes sizes)
    {
        var names = new List<Words>();
        Span? before = null;
        foreach (var span in played.Spans)
        {
            var goesOn = before is not null && before.Kind == span.Kind && before.Name == span.Name;
            before = span;
            if (XOf(system, span, sizes) is not { } x || (goesOn && names.Count > 0))
                continue;
            var name = new Words(InkKind.SpanName, span.Name, x, 0, sizes.SpanName, Face.Italic, Anchor.Left);
            // A name that would leave the system stands at its end.
            if (name.Box.Right > system.Right)
                name = (Words)name.Moved(system.Right - name.Box.Right, 0);
            names.Add(name);
        }
        if (names.Count == 0)
            return;
        var baseline =
            names.Min(name => sheet.TopOver(name.Box.Left, name.Box.Right, -TabNumbers.HalfHeight(sizes)))
            - (3.2 * sizes.Scale);
        foreach (var name in names)
        {
            var moved = name.Moved(0, baseline);
            // Two names that meet stand one above the other.
            while (
                sheet.Inks.Any(ink => ink.Kind == InkKind.SpanName && ink.Box.Grown(sizes.Scale).Overlaps(moved.Box))
            )
                moved = moved.Moved(0, -sizes.SpanName);
            sheet.Add(moved);
        }
    }

    private static double? XOf(SetSystem system, Span span, Sizes sizes)
    {
        foreach (var bar in system.Bars)
        {
            if (bar.Written.Index != span.Bar)
                continue;
            foreach (var (moment, x) in bar.Struck())
            {
                if (moment.At >= span.At)
                    return x - (sizes.Number * 0.28);
            }
        }
        return null;
    }
}
