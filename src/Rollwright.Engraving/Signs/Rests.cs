using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>Rests of the one voice, about the middle line.</summary>
internal static class Rests
{
    public static void Draw(Sheet sheet, SetBar bar, Sizes sizes)
    {
        for (var i = 0; i < bar.Columns.Length; i++)
        {
            var moment = bar.Written.Moments[i];
            if (!moment.IsRest)
                continue;
            var glyph = Glyph.Rest(moment.Value.Denominator);
            var stack = bar.Bar.Stacks[i];
            // A whole rest hangs from the line above the middle; all others are centred.
            var y = moment.Value.Denominator == 1 ? -sizes.Space : 0;
            sheet.Add(new Sign(InkKind.Rest, glyph, bar.Columns[i] + (stack.Left * sizes.Space), y, sizes.Space));
            Dots.Draw(sheet, moment.Value.Dots, bar.Columns[i] + (stack.DotX * sizes.Space), -sizes.Space / 2, sizes);
        }
    }
}
