using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>Ties between heads that are one sound.</summary>
internal static class Ties
{
    public static void Draw(Sheet sheet, SetBar bar, Sizes sizes)
    {
        if (bar.Columns.Length > 0 && bar.Written.Moments[0].Continues)
            DrawFromBefore(sheet, bar, sizes);
        for (var i = 1; i < bar.Columns.Length; i++)
        {
            if (!bar.Written.Moments[i].Continues)
                continue;
            var up = bar.Bar.StemsUp[i - 1];
            var before = bar.Bar.Stacks[i - 1];
            foreach (var head in bar.Bar.Stacks[i].Heads)
            {
                var y = Staff.Y(head.Step, sizes) + ((up ? 0.75 : -0.75) * sizes.Space);
                var left = bar.Columns[i - 1] + ((before.DotX - 0.3) * sizes.Space);
                var right = bar.Columns[i] + ((head.X - 0.1) * sizes.Space);
                sheet.Add(
                    Arcs.Between(InkKind.Tie, new(left, y), new(right, y), (up ? 0.8 : -0.8) * sizes.Space, sizes)
                );
            }
        }
    }

    // From a note of the bar before: half an arc, as it may stand in the line above.
    private static void DrawFromBefore(Sheet sheet, SetBar bar, Sizes sizes)
    {
        var up = bar.Bar.StemsUp[0];
        foreach (var head in bar.Bar.Stacks[0].Heads)
        {
            var y = Staff.Y(head.Step, sizes) + ((up ? 0.75 : -0.75) * sizes.Space);
            var right = bar.Columns[0] + ((head.X - 0.1) * sizes.Space);
            var left = right - (1.6 * sizes.Space);
            sheet.Add(Arcs.Between(InkKind.Tie, new(left, y), new(right, y), (up ? 0.5 : -0.5) * sizes.Space, sizes));
        }
    }
}
