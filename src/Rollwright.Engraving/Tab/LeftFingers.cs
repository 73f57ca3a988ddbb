using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Tab;

/// <summary>Left-hand fingers above the tab, in a steady row: 1 index to 4 little, T thumb.</summary>
internal static class LeftFingers
{
    public static void Draw(Sheet sheet, SetSystem system, Sizes sizes)
    {
        var placed = new List<(double X, string Text, int Row)>();
        foreach (var bar in system.Bars)
        {
            foreach (var (moment, x) in bar.Struck())
            {
                var row = 0;
                foreach (
                    var note in moment.Notes.OrderByDescending(note => bar.Written.Bar.Strokes[note.Stroke].String)
                )
                {
                    if (bar.Written.Bar.Strokes[note.Stroke].Left is { } finger)
                        placed.Add((x, finger == 0 ? "T" : $"{finger}", row++));
                }
            }
        }
        if (placed.Count == 0)
            return;
        var half = sizes.LeftFinger / 2;
        var lowest = -TabNumbers.HalfHeight(sizes);
        var baseline = placed.Min(item => sheet.TopOver(item.X - half, item.X + half, lowest)) - (1.6 * sizes.Scale);
        var rise = (sizes.LeftFinger * Lettering.CapitalHeight) + (1.2 * sizes.Scale);
        foreach (var (x, text, row) in placed)
            sheet.Add(
                new Words(
                    InkKind.LeftFinger,
                    text,
                    x,
                    baseline - (row * rise),
                    sizes.LeftFinger,
                    Face.Roman,
                    Anchor.Middle
                )
            );
    }
}
