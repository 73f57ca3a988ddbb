using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Labels;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Figures;

/// <summary>How a figure for an article is set.</summary>
/// <param name="Width">Points; the width of the column that it stands in.</param>
/// <param name="Caption">Words under it; none where empty.</param>
public sealed record FigureStyle(double Width, string Caption = "");

/// <summary>Puts ink on a page of a stated width that ends where the ink ends, with its caption.</summary>
internal static class Figure
{
    // White around the ink, so that no edge of a line is cut by rounding.
    public const double Edge = 1.5;

    private const double CaptionSize = 8.5;
    private const double CaptionGap = 7;

    public static void Check(FigureStyle style)
    {
        if (style.Width is not (>= 60 and <= 5000))
            throw new ArgumentException(
                $"A figure {style.Width} points wide cannot be set; take 60 to 5000.",
                nameof(style)
            );
    }

    /// <summary>A figure of ink that was drawn anywhere: its layout, and where the ink went.</summary>
    public static (LaidPage Page, double Dx, double Dy) Crop(IReadOnlyCollection<Ink> inks, FigureStyle style)
    {
        var box = Box.Around(inks.Select(ink => ink.Box));
        var dx = ((style.Width - box.Width) / 2) - box.Left;
        var dy = Edge - box.Top;
        var moved = inks.Select(ink => ink.Moved(dx, dy)).ToList();
        var y = box.Height + Edge;
        if (style.Caption.Length > 0)
            y = AddCaption(moved, y + CaptionGap, style);
        return (new(style.Width, Math.Ceiling((y + Edge) * 100) / 100, [.. moved]), dx, dy);
    }

    /// <summary>A figure without strokes or bars to point at.</summary>
    public static Layout Of(Sheet sheet, string title, string words, FigureStyle style)
    {
        if (sheet.Box.Width > style.Width)
            throw new ArgumentException(
                $"The figure is {sheet.Box.Width:0} points wide and does not fit {style.Width:0}; take a wider column.",
                nameof(style)
            );
        return new(title, "", words, [Crop([.. sheet.Inks], style).Page], [], []);
    }

    private static double AddCaption(List<Ink> inks, double y, FigureStyle style)
    {
        var bottom = y;
        foreach (var line in Paragraph.Lines(style.Caption, style.Width - (2 * Edge), CaptionSize, Face.Roman))
        {
            y += CaptionSize;
            var words = new Words(InkKind.Caption, line, Edge, y, CaptionSize, Face.Roman, Anchor.Left);
            inks.Add(words);
            bottom = Math.Max(bottom, words.Box.Bottom);
            y += CaptionSize * 0.3;
        }
        return bottom;
    }
}
