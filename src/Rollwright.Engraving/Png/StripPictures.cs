using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Skia;
using SkiaSharp;

namespace Rollwright.Engraving.Png;

/// <summary>
/// Pictures of what is seen of a strip of tab while it is played, transparent around a light plate. A plate and not an outline:
/// the lines are a pixel or two thin, an outline of each would close the gaps between numbers, and a video keeps less of the
/// colour than of the light.
/// </summary>
public sealed class StripPictures
{
    /// <summary>Points by which a mark's point stands over its band.</summary>
    public const double PointHeight = 6;

    /// <summary>Points by which the corners of the plate are round.</summary>
    internal const double Corner = 5;

    private readonly LaidPage page;
    private readonly double scale;
    private readonly byte plate;

    /// <param name="layout">One page, as long as the strip.</param>
    /// <param name="width">Pixels of a picture; made even, as videos need it.</param>
    /// <param name="seen">Points of the strip that are seen at once.</param>
    /// <param name="plate">How dense the plate is, 0 to 1.</param>
    public StripPictures(Layout layout, int width, double seen, double plate)
    {
        ArgumentNullException.ThrowIfNull(layout);
        page = layout.Pages[0];
        Width = width / 2 * 2;
        scale = Width / seen;
        Height = (int)Math.Ceiling(page.Height * scale / 2) * 2;
        this.plate = (byte)Math.Round(255 * plate);
    }

    /// <summary>Pixels of a picture.</summary>
    public int Width { get; }

    /// <summary>Pixels of a picture.</summary>
    public int Height { get; }

    /// <summary>Pictures of one stretch of the strip, as PNG, each with one place marked.</summary>
    /// <param name="left">Where the stretch begins, in points of the strip.</param>
    /// <param name="marks">The room that is marked in each picture; null for none.</param>
    public IEnumerable<byte[]> Paint(double left, IEnumerable<Box?> marks)
    {
        ArgumentNullException.ThrowIfNull(marks);
        var info = new SKImageInfo(Width, Height, SKColorType.Rgba8888, SKAlphaType.Premul);
        using var ink = SKSurface.Create(info);
        ink.Canvas.Scale((float)scale);
        ink.Canvas.Translate((float)-left, 0);
        var right = left + (Width / scale);
        Painter.Paint(
            ink.Canvas,
            page with
            {
                Inks = [.. page.Inks.Where(one => one.Box.Right > left && one.Box.Left < right)],
            }
        );
        using var inked = ink.Snapshot();
        using var surface = SKSurface.Create(info);
        foreach (var mark in marks)
        {
            surface.Canvas.Clear(SKColors.Transparent);
            PaintGround(surface.Canvas, mark is { } box ? box.Moved(-left, 0) : null);
            surface.Canvas.DrawImage(inked, 0, 0, SKSamplingOptions.Default);
            using var image = surface.Snapshot();
            using var data = image.Encode(SKEncodedImageFormat.Png, 100);
            yield return data.ToArray();
        }
    }

    // The mark is a band with a point above it: its shape says as much as its colour.
    private void PaintGround(SKCanvas canvas, Box? mark)
    {
        canvas.Save();
        canvas.Scale((float)scale);
        using var paint = new SKPaint { IsAntialias = true, Color = SKColors.White.WithAlpha(plate) };
        using var round = new SKRoundRect(
            new SKRect(0, 0, (float)(Width / scale), (float)(Height / scale)),
            (float)Corner
        );
        canvas.DrawRoundRect(round, paint);
        if (mark is { } box)
        {
            canvas.ClipRoundRect(round, antialias: true);
            paint.Color = new SKColor(255, 196, 61);
            canvas.DrawRect(new((float)box.Left, (float)box.Top, (float)box.Right, (float)box.Bottom), paint);
            paint.Color = new SKColor(150, 60, 0);
            var middle = (float)((box.Left + box.Right) / 2);
            using var builder = new SKPathBuilder();
            builder.MoveTo(middle - 5, (float)(box.Top - PointHeight));
            builder.LineTo(middle + 5, (float)(box.Top - PointHeight));
            builder.LineTo(middle, (float)box.Top);
            builder.Close();
            using var point = builder.Detach();
            canvas.DrawPath(point, paint);
        }
        canvas.Restore();
    }
}
