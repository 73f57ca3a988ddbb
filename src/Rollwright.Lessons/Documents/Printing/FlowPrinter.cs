using System.Collections.Immutable;
using Markdig.Extensions.Tables;
using Markdig.Syntax;
using Rollwright.Engraving.Flow;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Lessons.Documents.Printing;

/// <summary>A document as blocks that flow over pages.</summary>
internal sealed class FlowPrinter
{
    private readonly LessonDocument document;
    private readonly List<FlowBlock> blocks = [];

    private FlowPrinter(LessonDocument document) => this.document = document;

    public static IReadOnlyList<FlowBlock> Print(LessonDocument document)
    {
        var printer = new FlowPrinter(document);
        printer.AddAll(document.Tree);
        return printer.blocks;
    }

    private void AddAll(ContainerBlock container)
    {
        foreach (var block in container)
            Add(block);
    }

    private void Add(Block block)
    {
        switch (block)
        {
            case HeadingBlock heading:
                blocks.Add(new Heading(heading.Level, InlineRuns.PlainOf(heading.Inline)));
                break;
            case ParagraphBlock paragraph when document.ShownIn(paragraph) is { } shown:
                blocks.Add(
                    shown.Figure is { } figure
                        ? new FigureBlock(figure.Drawing, shown.Caption)
                        : new PictureBlock(shown.Picture!, shown.Caption)
                );
                break;
            case ParagraphBlock paragraph:
                blocks.Add(new TextBlock(RunsOf(paragraph)));
                break;
            case QuoteBlock quote:
                foreach (var paragraph in quote.Descendants<ParagraphBlock>())
                    blocks.Add(new NoteBlock(RunsOf(paragraph)));
                break;
            case ListBlock list:
                AddList(list, 0);
                break;
            case Table table:
                AddTable(table);
                break;
            case CodeBlock code:
                blocks.Add(new LinesBlock([.. code.Lines.ToString().Split('\n')]));
                break;
            case ContainerBlock container:
                AddAll(container);
                break;
        }
    }

    private void AddList(ListBlock list, int depth)
    {
        var number = int.TryParse(list.OrderedStart, out var start) ? start : 1;
        foreach (var item in list.OfType<ListItemBlock>())
        {
            var mark = list.IsOrdered ? $"{number++}." : "•";
            foreach (var block in item)
            {
                if (block is ListBlock inner)
                    AddList(inner, depth + 1);
                else if (block is ParagraphBlock paragraph && document.ShownIn(paragraph) is null)
                {
                    blocks.Add(new ItemBlock(mark, depth, RunsOf(paragraph)));
                    // A second paragraph of the item stands under the first.
                    mark = "";
                }
                else
                    Add(block);
            }
        }
    }

    private void AddTable(Table table)
    {
        var rows = table.OfType<TableRow>().Select(row => LessonDocument.CellsOf(row).ToImmutableArray()).ToList();
        var columns = rows.Max(row => row.Length);
        var even = rows.Select(row => row.AddRange(Enumerable.Repeat("", columns - row.Length))).ToList();
        blocks.Add(new TableBlock(even[0], [.. even.Skip(1)]));
    }

    private static ImmutableArray<TextRun> RunsOf(ParagraphBlock paragraph)
    {
        var runs = ImmutableArray.CreateBuilder<TextRun>();
        foreach (var run in InlineRuns.Of(paragraph.Inline))
        {
            var face =
                run.IsBold ? Face.Bold
                : run.IsItalic ? Face.Italic
                : Face.Roman;
            runs.Add(new(run.Text, face));
        }
        // On paper nothing can be followed: where a link leads is said.
        foreach (var link in InlineRuns.Of(paragraph.Inline).Select(run => run.Link).OfType<string>().Distinct())
        {
            if (link.Length > 0 && !runs.Any(run => link.EndsWith(run.Text, StringComparison.Ordinal)))
                runs.Add(new($" ({link})", Face.Roman));
        }
        return runs.ToImmutable();
    }
}
