using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;

namespace Rollwright.Engraving.Flow;

/// <summary>The way in: from text with figures to pages of ink.</summary>
public static class TextFlow
{
    /// <param name="title">Of the document.</param>
    /// <param name="author">May be empty.</param>
    /// <param name="blocks">In order.</param>
    /// <param name="style">The paper.</param>
    /// <exception cref="ArgumentException">The style leaves no room for text, or a figure is wider than it.</exception>
    public static Layout Lay(string title, string author, IReadOnlyList<FlowBlock> blocks, FlowStyle style)
    {
        ArgumentNullException.ThrowIfNull(blocks);
        ArgumentNullException.ThrowIfNull(style);
        FlowStyle.Check(style);
        var pieces = new List<Piece>();
        var begins = false;
        for (var i = 0; i < blocks.Count; i++)
        {
            if (blocks[i] is NewPage)
            {
                begins = true;
                continue;
            }
            var keeps = i + 1 < blocks.Count && BelongsTo(blocks[i], blocks[i + 1]);
            foreach (var piece in PiecesOf(blocks[i], style))
            {
                pieces.Add(piece with { BeginsPage = begins, KeepsNext = piece.KeepsNext || keeps });
                begins = false;
            }
        }
        return new(title, author, title, new FlowPages(style).Fill(pieces), [], []);
    }

    // What leads to a figure stands above it, what a figure is told in begins below it.
    private static bool BelongsTo(FlowBlock block, FlowBlock next) =>
        (block, next) switch
        {
            (TextBlock, FigureBlock or PictureBlock or TableBlock) => true,
            (FigureBlock { Figure.Pages.Length: 1 }, ItemBlock) => true,
            _ => false,
        };

    private static IEnumerable<Piece> PiecesOf(FlowBlock block, FlowStyle style) =>
        block switch
        {
            Heading heading => new TextPieces(style).Heading(heading),
            TextBlock text => new TextPieces(style).Paragraph(text.Runs),
            NoteBlock note => new TextPieces(style).Note(note.Runs),
            ItemBlock item => new TextPieces(style).Item(item),
            LinesBlock lines => new TextPieces(style).AsTheyAre(lines.Lines),
            TableBlock table => new TablePieces(style).Table(table),
            FigureBlock figure when figure.Figure.Pages.Any(page => page.Width > style.TextWidth + 0.01) =>
                throw new ArgumentException(
                    "A figure is wider than the text; lay it out for its width.",
                    nameof(block)
                ),
            FigureBlock figure => new FigurePieces(style).Figure(figure),
            PictureBlock picture => [new FigurePieces(style).Picture(picture)],
            _ => throw new ArgumentException($"There is no way to print {block.GetType().Name}.", nameof(block)),
        };
}
