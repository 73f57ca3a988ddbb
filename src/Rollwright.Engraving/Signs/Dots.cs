using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>Dots behind notes and rests.</summary>
internal static class Dots
{
    public static void Draw(Sheet sheet, int count, double x, double y, Sizes sizes)
    {
        for (var i = 0; i < count; i++)
            sheet.Add(new Sign(InkKind.Dot, Glyph.Dot, x + (i * 0.6 * sizes.Space), y, sizes.Space));
    }
}
