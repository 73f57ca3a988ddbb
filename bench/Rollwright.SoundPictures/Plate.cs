using SkiaSharp;

namespace Rollwright.SoundPictures;

/// <summary>A sheet of paper to draw on, in ink, with the letters of the pages.</summary>
internal sealed class Plate : IDisposable
{
    public const int Width = 900;
    public const float Left = 58;
    public const float Right = 12;

    private readonly SKBitmap bitmap;
    private readonly SKTypeface letters;

    public Plate(int height)
    {
        bitmap = new(Width, height);
        Canvas = new(bitmap);
        Canvas.Clear(Paper);
        using var font = typeof(Engraving.Engraver).Assembly.GetManifestResourceStream("sans-regular.ttf");
        letters = SKTypeface.FromStream(font);
    }

    public static SKColor Paper { get; } = new(0xfb, 0xf8, 0xf1);

    public static SKColor Ink { get; } = new(0x2b, 0x26, 0x20);

    public static SKColor Faint { get; } = new(0xb9, 0xae, 0x9c);

    public SKCanvas Canvas { get; }

    /// <summary>Where a share of the time lies across the sheet.</summary>
    public static float X(double share) => Left + ((Width - Left - Right) * (float)share);

    public void Line(float x1, float y1, float x2, float y2, SKColor colour, float width = 1, bool dashed = false)
    {
        using var paint = new SKPaint();
        paint.Color = colour;
        paint.StrokeWidth = width;
        paint.IsAntialias = true;
        if (dashed)
            paint.PathEffect = SKPathEffect.CreateDash([6, 4], 0);
        Canvas.DrawLine(x1, y1, x2, y2, paint);
    }

    public void Curve(IReadOnlyList<SKPoint> points, SKColor colour, float width)
    {
        for (var i = 1; i < points.Count; i++)
            Line(points[i - 1].X, points[i - 1].Y, points[i].X, points[i].Y, colour, width);
    }

    public void Dot(float x, float y, float width, float height, SKColor colour)
    {
        using var paint = new SKPaint();
        paint.Color = colour;
        Canvas.DrawRect(x, y, width, height, paint);
    }

    public void Text(string text, float x, float y, float size, SKTextAlign align = SKTextAlign.Left)
    {
        using var font = new SKFont(letters, size);
        using var paint = new SKPaint();
        paint.Color = Ink;
        paint.IsAntialias = true;
        Canvas.DrawText(text, x, y, align, font, paint);
    }

    public byte[] Png()
    {
        using var image = SKImage.FromBitmap(bitmap);
        using var data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    public void Dispose()
    {
        Canvas.Dispose();
        bitmap.Dispose();
        letters.Dispose();
    }
}
