using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Signs;

/// <summary>What joins notation and tab at the left: the line down the system and the bracket before it.</summary>
internal static class Brackets
{
    public static void Draw(Sheet sheet, SetSystem system, double top, double bottom, bool two, Sizes sizes)
    {
        var line = system.Left + (sizes.ThinBarLine / 2);
        sheet.Add(new Rules(InkKind.Bracket, [new(line, top, line, bottom)], sizes.ThinBarLine));
        if (!two)
            return;
        var x = system.Left - WidthBefore(sizes);
        var reach = 0.35 * sizes.Space;
        var middle = x + (sizes.Bracket / 2);
        sheet.Add(new Rules(InkKind.Bracket, [new(middle, top - reach, middle, bottom + reach)], sizes.Bracket));
        sheet.Add(new Sign(InkKind.Bracket, Glyph.BracketTop, x, top - reach, sizes.Space));
        sheet.Add(new Sign(InkKind.Bracket, Glyph.BracketBottom, x, bottom + reach, sizes.Space));
    }

    /// <summary>Points that the bracket stands to the left of the staves.</summary>
    public static double WidthBefore(Sizes sizes) => 0.9 * sizes.Space;
}
