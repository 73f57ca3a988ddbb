using Markdig.Extensions.Tables;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;
using Rollwright.Engraving.Drawing;

namespace Rollwright.Lessons.Documents;

/// <summary>
/// A lesson's text as a tree, with the figures that it shows: HTML, DOCX and PDF are printed from it. Markup in it is text, and
/// addresses lead to the net, to mail or to files beside it only: a lesson is passed on to others.
/// </summary>
internal sealed class LessonDocument
{
    private readonly FigureBook figures;
    private readonly Introduction introduction;

    public LessonDocument(string title, string author, string markdown, FigureBook figures, Introduction introduction)
    {
        (Title, Author, this.figures, this.introduction) = (title, author, figures, introduction);
        Tree = OwnMarkdown.Parse(markdown);
    }

    public string Title { get; }

    /// <summary>May be empty.</summary>
    public string Author { get; }

    public MarkdownDocument Tree { get; }

    /// <summary>What a paragraph shows that is a picture with, or without, a line in italics below it; null for any other.</summary>
    public Shown? ShownIn(ParagraphBlock paragraph)
    {
        if (paragraph.Inline?.FirstChild is not LinkInline { IsImage: true } image)
            return null;
        var caption = "";
        switch (image.NextSibling)
        {
            case null:
                break;
            case LineBreakInline { NextSibling: EmphasisInline { NextSibling: null } words }:
                caption = InlineRuns.PlainOf(words);
                break;
            default:
                return null;
        }
        var alt = InlineRuns.PlainOf(image);
        if (figures.Find(image.Url) is { } figure)
            return new(image.Url!, alt, caption, figure, null);
        return introduction.Pictures.TryGetValue(image.Url ?? "", out var picture)
            ? new(image.Url!, alt, caption, null, picture)
            : null;
    }

    /// <summary>Cells of a row as text.</summary>
    public static IEnumerable<string> CellsOf(TableRow row) =>
        row.Cast<TableCell>()
            .Select(cell => string.Join(' ', cell.OfType<LeafBlock>().Select(leaf => InlineRuns.PlainOf(leaf.Inline))));

    /// <summary>A figure or a picture in the text.</summary>
    /// <param name="Address">As the text has it.</param>
    /// <param name="Alt">What it shows, for those who do not see it.</param>
    /// <param name="Caption">May be empty.</param>
    /// <param name="Figure">Music.</param>
    /// <param name="Picture">A picture from a file.</param>
    public sealed record Shown(string Address, string Alt, string Caption, BookFigure? Figure, PictureFile? Picture);
}
