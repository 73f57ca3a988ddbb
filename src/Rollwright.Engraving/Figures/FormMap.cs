using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Figures;

/// <summary>
/// A map of the form: a row a part, a cell a phrase of two bars with its letter, its bars and its chords. Phrases with the same
/// melody (without it: the same strokes) have the same letter; one that only begins the same has a prime.
/// </summary>
public static class FormMap
{
    private const double CellHeight = 44;
    private const double LabelWidth = 44;
    private const double RowGap = 8;

    /// <param name="played">The break.</param>
    /// <param name="style">Width and caption.</param>
    /// <param name="letters">Other letters for phrases by their number; null for those of the melody.</param>
    /// <exception cref="ArgumentException">The width is too small.</exception>
    public static Layout Lay(Break played, FigureStyle style, IReadOnlyDictionary<int, string>? letters = null)
    {
        Figure.Check(style);
        var parts = FormParts.Of(played, letters);
        var cells = parts.Max(part => part.Phrases.Length);
        var width = Math.Min(110, (style.Width - (2 * Figure.Edge) - LabelWidth) / cells);
        if (width < 24)
            throw new ArgumentException(
                $"A map with {cells} phrases in a row does not fit {style.Width:0} points; take a wider column.",
                nameof(style)
            );
        var all = new Sheet();
        var y = 0.0;
        foreach (var part in parts)
        {
            Write(all, part.Name, 6, y + (CellHeight / 2) + 4, 16, Face.Bold, Anchor.Left);
            if (part.Times > 1)
                Write(all, $"{part.Times}×", LabelWidth - 8, y + (CellHeight / 2) + 4, 9, Face.Roman, Anchor.Right);
            for (var i = 0; i < part.Phrases.Length; i++)
                Cell(all, part.Phrases[i], LabelWidth + (i * width), y, width);
            y += CellHeight + RowGap;
        }
        var said = string.Join(
            "; ",
            parts.Select(part => $"{part.Name}: {string.Join(' ', part.Phrases.Select(phrase => phrase.Letter))}")
        );
        return Figure.Of(all, played.Title, $"The form of {played.Title}: {said}. {style.Caption}".TrimEnd(), style);
    }

    private static void Cell(Sheet sheet, FormPhrase phrase, double left, double top, double width)
    {
        double right = left + width,
            bottom = top + CellHeight,
            middle = left + (width / 2);
        sheet.Add(
            new Rules(
                InkKind.FormCell,
                [
                    new(left, top, right, top),
                    new(right, top, right, bottom),
                    new(right, bottom, left, bottom),
                    new(left, bottom, left, top),
                ],
                0.8
            )
        );
        Write(sheet, phrase.Bars, left + 3, top + 9, 6.5, Face.Italic, Anchor.Left);
        if (phrase.Ending.Length > 0)
            Write(sheet, phrase.Ending, right - 3, top + 9, 6.5, Face.Roman, Anchor.Right);
        Write(sheet, phrase.Letter, middle, top + 26, 14, Face.Italic, Anchor.Middle);
        var chords = phrase.Chords;
        var size = Math.Min(8, 8 * (width - 6) / Math.Max(1, Lettering.WidthOf(chords, 8, Face.Bold)));
        if (chords.Length > 0)
            Write(sheet, chords, middle, bottom - 5, size, Face.Bold, Anchor.Middle);
    }

    private static void Write(Sheet sheet, string text, double x, double y, double size, Face face, Anchor anchor) =>
        sheet.Add(new Words(InkKind.FormCell, text, x, y, size, face, anchor));
}
