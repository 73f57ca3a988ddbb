using System.Collections.Concurrent;
using Rollwright.Engraving.Drawing;
using SkiaSharp;

namespace Rollwright.Engraving.Measuring;

/// <summary>
/// Bravura, the music font: outlines and measures of its signs. Signs are drawn as outlines in every output, so that
/// no reader of a page needs the font.
/// </summary>
/// <remarks>SMuFL sets the em to four staff spaces; measures here are in staff spaces.</remarks>
internal static class MusicFont
{
    // Outlines are read at this many points a staff space, so that rounding inside the library does not show.
    private const float Fine = 250;

    private static readonly Lazy<SKTypeface> Loaded = new(() => FontResource.Typeface("bravura.otf"));
    private static readonly ConcurrentDictionary<int, SKPath> Outlines = new();
    private static readonly ConcurrentDictionary<int, Box> Boxes = new();

    public static SKTypeface Typeface => Loaded.Value;

    /// <summary>Outline in staff spaces, y downwards, about the sign's origin.</summary>
    public static SKPath OutlineOf(Glyph glyph) => Outlines.GetOrAdd(glyph.CodePoint, Read);

    /// <summary>The room of a sign at a place, in points.</summary>
    public static Box BoxOf(Glyph glyph, double x, double y, double space)
    {
        var box = Boxes.GetOrAdd(
            glyph.CodePoint,
            static code =>
            {
                var bounds = OutlineOf(new(code)).TightBounds;
                return new(bounds.Left, bounds.Top, bounds.Right, bounds.Bottom);
            }
        );
        return new(x + (box.Left * space), y + (box.Top * space), x + (box.Right * space), y + (box.Bottom * space));
    }

    /// <summary>Width of a sign in staff spaces, from its origin to its right edge.</summary>
    public static double WidthOf(Glyph glyph) => BoxOf(glyph, 0, 0, 1).Right;

    private static SKPath Read(int codePoint)
    {
        using var font = new SKFont(Typeface, Fine * 4);
        var glyph = font.GetGlyph(codePoint);
        if (glyph == 0)
            throw new InvalidOperationException($"The music font has no sign U+{codePoint:X4}.");
        var path = font.GetGlyphPath(glyph);
        path.Transform(SKMatrix.CreateScale(1 / Fine, 1 / Fine));
        return path;
    }
}
