using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using SkiaSharp;

namespace Rollwright.Engraving.Skia;

/// <summary>Paints ink on a canvas, of a picture or of a PDF page; canvas units are points.</summary>
internal static class Painter
{
    /// <param name="typefaceOf">The font of a run of words, where it is not the one that was measured.</param>
    public static void Paint(SKCanvas canvas, LaidPage page, Func<Lettering.Run, Face, SKTypeface>? typefaceOf = null)
    {
        using var fill = new SKPaint { Color = SKColors.Black, IsAntialias = true };
        using var line = new SKPaint
        {
            Color = SKColors.Black,
            IsAntialias = true,
            IsStroke = true,
            StrokeCap = SKStrokeCap.Butt,
        };
        foreach (var ink in page.Inks)
            Paint(canvas, ink, fill, line, typefaceOf ?? Lettering.TypefaceOf);
    }

    private static void Paint(
        SKCanvas canvas,
        Ink ink,
        SKPaint fill,
        SKPaint line,
        Func<Lettering.Run, Face, SKTypeface> typefaceOf
    )
    {
        switch (ink)
        {
            case Rules rules:
                line.StrokeWidth = (float)rules.Thickness;
                foreach (var segment in rules.Segments)
                    canvas.DrawLine(Of(segment.From), Of(segment.To), line);
                break;
            case Shape shape:
                using (var path = PathOf(shape))
                    canvas.DrawPath(path, fill);
                break;
            case Sign sign:
                canvas.Save();
                canvas.Translate((float)sign.X, (float)sign.Y);
                canvas.Scale((float)sign.Space);
                canvas.DrawPath(MusicFont.OutlineOf(sign.Glyph), fill);
                canvas.Restore();
                break;
            case Picture picture:
                using (var image = SKImage.FromEncodedData(picture.Image.Bytes))
                {
                    // The head could be read, what follows may still be broken: then its place stays white.
                    if (image is not null)
                        canvas.DrawImage(image, Of(picture.Box), new SKSamplingOptions(SKFilterMode.Linear));
                }
                break;
            case Words words:
                PaintWords(canvas, words, fill, typefaceOf);
                break;
        }
    }

    private static void PaintWords(
        SKCanvas canvas,
        Words words,
        SKPaint fill,
        Func<Lettering.Run, Face, SKTypeface> typefaceOf
    )
    {
        var x = words.Box.Left;
        foreach (var run in Lettering.RunsOf(words.Text))
        {
            using var font = new SKFont(typefaceOf(run, words.Face), (float)words.Size)
            {
                Subpixel = true,
                Hinting = SKFontHinting.None,
            };
            canvas.DrawText(run.Text, (float)x, (float)words.Y, SKTextAlign.Left, font, fill);
            x += Lettering.WidthOf(run.Text, words.Size, words.Face);
        }
    }

    private static SKPath PathOf(Shape shape)
    {
        using var builder = new SKPathBuilder();
        builder.MoveTo(Of(shape.Start));
        foreach (var turn in shape.Turns)
        {
            if (turn is { Control1: { } first, Control2: { } second })
                builder.CubicTo(Of(first), Of(second), Of(turn.To));
            else
                builder.LineTo(Of(turn.To));
        }
        builder.Close();
        return builder.Detach();
    }

    private static SKRect Of(Box box) => new((float)box.Left, (float)box.Top, (float)box.Right, (float)box.Bottom);

    private static SKPoint Of(Place place) => new((float)place.X, (float)place.Y);
}
