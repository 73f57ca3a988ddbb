using Rollwright.Engraving.Drawing;

namespace Rollwright.Engraving.Flow;

/// <summary>Drawings and pictures, whole, with the words under them.</summary>
internal sealed class FigurePieces(FlowStyle style)
{
    private readonly TextPieces text = new(style);

    private double Gap => style.Size * 0.8;

    public IEnumerable<Piece> Figure(FigureBlock figure) =>
        figure.Figure.Pages.Select(
            (page, i) =>
            {
                // Numbers of pages are the text's.
                var inks = page.Inks.Where(ink => ink.Kind != InkKind.PageNumber).ToList();
                var box = Box.Around(inks.Select(ink => ink.Box));
                return Whole(
                    [.. inks.Select(ink => ink.Moved(Math.Max(0, (style.TextWidth - page.Width) / 2), -box.Top))],
                    box.Height,
                    i == figure.Figure.Pages.Length - 1 ? figure.Caption : ""
                );
            }
        );

    public Piece Picture(PictureBlock picture)
    {
        // A pixel is three quarters of a point (CSS).
        var (width, height) = (picture.Image.Width * 0.75, picture.Image.Height * 0.75);
        var scale = Math.Min(1, Math.Min(style.TextWidth / width, style.TextHeight / 2 / height));
        (width, height) = (width * scale, height * scale);
        var left = (style.TextWidth - width) / 2;
        return Whole([new Picture(picture.Image, new(left, 0, left + width, height))], height, picture.Caption);
    }

    private Piece Whole(List<Ink> inks, double height, string caption)
    {
        foreach (var line in text.Caption(caption))
        {
            height += line.Before;
            inks.AddRange(line.Inks.Select(ink => ink.Moved(0, height)));
            height += line.Height;
        }
        return new(inks, height + (style.Size * 0.2), Gap);
    }
}
