using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Skia;
using SkiaSharp;

namespace Rollwright.Engraving.Png;

/// <summary>Writes one page as a picture, black on white.</summary>
public static class PngWriter
{
    private const double PointsPerInch = 72;

    // Beyond this a picture needs more memory than a page is worth (400 million pixels at four bytes).
    private const double MostPixels = 4e8;

    /// <param name="layout">What to print.</param>
    /// <param name="page">Index of the page.</param>
    /// <param name="dpi">Dots per inch, 10 to 1200; 96 for screens, 300 for print.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such page, or the picture would be too large.</exception>
    public static byte[] Write(Layout layout, int page = 0, double dpi = 192)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(page);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(page, layout.Pages.Length);
        if (dpi is not (>= 10 and <= 1200))
            throw new ArgumentOutOfRangeException(nameof(dpi), dpi, "Take from 10 to 1200 dots per inch.");
        var laid = layout.Pages[page];
        var scale = dpi / PointsPerInch;
        var width = Math.Ceiling(laid.Width * scale);
        var height = Math.Ceiling(laid.Height * scale);
        if (width * height > MostPixels)
            throw new ArgumentOutOfRangeException(nameof(dpi), dpi, "The picture would be too large; take fewer dots.");
        using var bitmap = new SKBitmap(
            new SKImageInfo((int)width, (int)height, SKColorType.Gray8, SKAlphaType.Opaque)
        );
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.White);
            canvas.Scale((float)scale);
            Painter.Paint(canvas, laid);
        }
        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 100);
        return PngResolution.Put(data.AsSpan(), dpi);
    }
}
