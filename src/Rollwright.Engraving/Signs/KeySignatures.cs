using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Keys;

namespace Rollwright.Engraving.Signs;

/// <summary>Sharps or flats at the front of a system.</summary>
internal static class KeySignatures
{
    // Steps above the middle line in the treble clef, in the order of the circle of fifths.
    private static readonly int[] Sharps = [4, 1, 5, 2, -1, 3, 0];
    private static readonly int[] Flats = [0, 3, -1, 2, -2, 1, -3];

    public static double WidthOf(Key key, Sizes sizes) => CountOf(key) * Distance(key) * sizes.Space;

    public static void Draw(Sheet sheet, Key key, double x, Sizes sizes)
    {
        var steps = key.Fifths > 0 ? Sharps : Flats;
        var glyph = key.Fifths > 0 ? Glyph.Sharp : Glyph.Flat;
        for (var i = 0; i < CountOf(key); i++)
        {
            sheet.Add(new Sign(InkKind.KeySignature, glyph, x, Staff.Y(steps[i], sizes), sizes.Space));
            x += Distance(key) * sizes.Space;
        }
    }

    private static int CountOf(Key key) => Math.Min(7, Math.Abs(key.Fifths));

    private static double Distance(Key key) => key.Fifths > 0 ? 1.05 : 0.95;
}
