using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Labels;

/// <summary>The number of the first bar of each system but that which opens the piece, above its left end.</summary>
internal static class BarNumbers
{
    public static void Draw(Sheet sheet, SetSystem system, double lowest, Sizes sizes)
    {
        if (system.Bars[0].Written.Index == 0)
            return;
        var words = new Words(
            InkKind.BarNumber,
            $"{system.Bars[0].Written.Number}",
            system.Left,
            0,
            sizes.BarNumber,
            Face.Italic,
            Anchor.Left
        );
        var top = sheet.TopOver(words.Box.Left, words.Box.Right, lowest);
        sheet.Add(words.Moved(0, top - words.Box.Bottom - (1.6 * sizes.Scale)));
    }
}
