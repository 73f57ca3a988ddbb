using System.IO.Compression;
using System.Xml;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using Markdig.Extensions.Tables;
using Markdig.Syntax;
using Rollwright.Engraving.Drawing;
using W = DocumentFormat.OpenXml.Wordprocessing;

namespace Rollwright.Lessons.Documents.Printing;

/// <summary>A document as DOCX (Office Open XML), its figures inside; the same bytes for the same document.</summary>
internal sealed class DocxPrinter
{
    // A4 with white of an inch on all sides, in points: wider pictures are made to fit.
    private const double TextWidth = 451;

    private const string MainType = "application/vnd.openxmlformats-officedocument.wordprocessingml.document.main+xml";
    private const string CoreType = "application/vnd.openxmlformats-package.core-properties+xml";
    private const double MostHeight = 640;

    private readonly LessonDocument document;
    private readonly Func<BookFigure, byte[]> printed;
    private readonly MainDocumentPart main;
    private readonly W.Body body = new();
    private readonly List<int> ordered = [];
    private readonly Dictionary<string, string> links = new(StringComparer.Ordinal);
    private uint pictures;

    private DocxPrinter(LessonDocument document, Func<BookFigure, byte[]> printed, MainDocumentPart main) =>
        (this.document, this.printed, this.main) = (document, printed, main);

    /// <param name="document">The text.</param>
    /// <param name="printed">A figure as PNG.</param>
    public static byte[] Print(LessonDocument document, Func<BookFigure, byte[]> printed)
    {
        using var stream = new MemoryStream();
        using (var package = WordprocessingDocument.Create(stream, WordprocessingDocumentType.Document))
        {
            // Named by hand: the library's own names are made by chance.
            var main = package.AddNewPart<MainDocumentPart>(MainType, "main");
            WriteProperties(package.AddNewPart<CoreFilePropertiesPart>(CoreType, "core"), document);
            var printer = new DocxPrinter(document, printed, main);
            printer.AddAll(document.Tree, 0, null);
            printer.body.Append(
                new W.SectionProperties(
                    new W.PageSize { Width = 11_906, Height = 16_838 },
                    new W.PageMargin
                    {
                        Top = 1_440,
                        Bottom = 1_440,
                        Left = 1_440,
                        Right = 1_440,
                        Header = 708,
                        Footer = 708,
                        Gutter = 0,
                    }
                )
            );
            main.Document = new(printer.body);
            main.AddNewPart<StyleDefinitionsPart>("styles").Styles = DocxStyles.Make();
            main.AddNewPart<NumberingDefinitionsPart>("numbering").Numbering = DocxStyles.MakeNumbering(
                printer.ordered
            );
        }
        return WithoutClock(stream);
    }

    private static void WriteProperties(CoreFilePropertiesPart part, LessonDocument document)
    {
        const string core = "http://schemas.openxmlformats.org/package/2006/metadata/core-properties";
        const string dublin = "http://purl.org/dc/elements/1.1/";
        using var stream = part.GetStream(FileMode.Create);
        using var xml = XmlWriter.Create(stream);
        xml.WriteStartElement("cp", "coreProperties", core);
        xml.WriteElementString("dc", "title", dublin, Clean(document.Title));
        xml.WriteElementString("dc", "creator", dublin, Clean(document.Author));
        xml.WriteEndElement();
    }

    private void AddAll(ContainerBlock container, int depth, string? style)
    {
        foreach (var block in container)
            Add(block, depth, style);
    }

    private void Add(Block block, int depth, string? style)
    {
        switch (block)
        {
            case HeadingBlock heading:
                body.Append(Paragraph($"Heading{Math.Min(heading.Level, 3)}", InlineRuns.Of(heading.Inline)));
                break;
            case ParagraphBlock paragraph when document.ShownIn(paragraph) is { } shown:
                AddPicture(shown);
                break;
            case ParagraphBlock paragraph:
                var made = Paragraph(style, InlineRuns.Of(paragraph.Inline));
                // What leads to a figure stands above it.
                if (NextOf(paragraph) is ParagraphBlock next && document.ShownIn(next) is not null)
                    made.ParagraphProperties!.KeepNext = new();
                body.Append(made);
                break;
            case QuoteBlock quote:
                AddAll(quote, depth, "Quote");
                break;
            case ListBlock list:
                AddList(list, depth);
                break;
            case Table table:
                AddTable(table);
                break;
            case CodeBlock code:
                foreach (var line in code.Lines.ToString().Split('\n'))
                    body.Append(Paragraph("Code", [new(line, false, false, null)]));
                break;
            case ContainerBlock container:
                AddAll(container, depth, style);
                break;
        }
    }

    private static Block? NextOf(Block block)
    {
        var after = block.Parent!.IndexOf(block) + 1;
        return after < block.Parent.Count ? block.Parent[after] : null;
    }

    private void AddList(ListBlock list, int depth)
    {
        var numbering = DocxStyles.Bullets;
        if (list.IsOrdered)
        {
            numbering = DocxStyles.OrderedList(ordered.Count);
            ordered.Add(int.TryParse(list.OrderedStart, out var start) ? start : 1);
        }
        foreach (var item in list.OfType<ListItemBlock>())
        {
            var isFirst = true;
            foreach (var block in item)
            {
                if (block is not ParagraphBlock paragraph || !isFirst || document.ShownIn(paragraph) is not null)
                {
                    Add(block, depth + 1, "ListParagraph");
                    continue;
                }
                isFirst = false;
                var made = Paragraph("ListParagraph", InlineRuns.Of(paragraph.Inline));
                made.ParagraphProperties!.NumberingProperties = new(
                    new W.NumberingLevelReference { Val = Math.Min(depth, 3) },
                    new W.NumberingId { Val = int.Parse(numbering, System.Globalization.CultureInfo.InvariantCulture) }
                );
                body.Append(made);
            }
        }
    }

    private void AddTable(Table table)
    {
        var rows = table
            .OfType<TableRow>()
            .Select(row => (row.IsHeader, Cells: LessonDocument.CellsOf(row).ToList()))
            .ToList();
        var columns = rows.Max(row => row.Cells.Count);
        var made = new W.Table(
            new W.TableProperties(
                new W.TableWidth { Width = "5000", Type = W.TableWidthUnitValues.Pct },
                new W.TableBorders(
                    new W.BottomBorder { Val = W.BorderValues.Single, Size = 4 },
                    new W.InsideHorizontalBorder { Val = W.BorderValues.Single, Size = 4 }
                )
            ),
            new W.TableGrid(Enumerable.Range(0, columns).Select(_ => new W.GridColumn { Width = $"{9020 / columns}" }))
        );
        foreach (var (isHead, cells) in rows)
        {
            var row = new W.TableRow();
            if (isHead)
                row.Append(new W.TableRowProperties(new W.CantSplit(), new W.TableHeader()));
            for (var i = 0; i < columns; i++)
                row.Append(
                    new W.TableCell(
                        new W.TableCellProperties(
                            new W.TableCellWidth { Width = $"{9020 / columns}", Type = W.TableWidthUnitValues.Dxa }
                        ),
                        Paragraph(null, [new(i < cells.Count ? cells[i] : "", isHead, false, null)])
                    )
                );
            made.Append(row);
        }
        body.Append(made, new W.Paragraph());
    }

    private void AddPicture(LessonDocument.Shown shown)
    {
        var (bytes, type, width, height) = shown.Figure is { } figure
            ? (printed(figure), "image/png", figure.Drawing.Pages[0].Width, figure.Drawing.Pages[0].Height)
            : (shown.Picture!.Bytes, shown.Picture.MediaType, shown.Picture.Width * 0.75, shown.Picture.Height * 0.75);
        var scale = Math.Min(1, Math.Min(TextWidth / width, MostHeight / height));
        var id = $"picture{++pictures}";
        var part = main.AddNewPart<ImagePart>(type, id);
        using (var data = new MemoryStream(bytes))
            part.FeedData(data);
        var drawing = DocxPicture.Make(id, pictures, Clean(shown.Alt), width * scale, height * scale);
        var paragraph = new W.Paragraph(new W.ParagraphProperties(), new W.Run(drawing));
        if (shown.Caption.Length > 0)
            paragraph.ParagraphProperties!.KeepNext = new();
        body.Append(paragraph);
        if (shown.Caption.Length > 0)
            body.Append(Paragraph("Caption", [new(shown.Caption, false, false, null)]));
    }

    private W.Paragraph Paragraph(string? style, IEnumerable<StyledRun> runs)
    {
        var properties = new W.ParagraphProperties();
        if (style is not null)
            properties.ParagraphStyleId = new() { Val = style };
        var paragraph = new W.Paragraph(properties);
        foreach (var run in runs)
        {
            var made = new W.Run(PropertiesOf(run));
            made.Append(
                run.IsLineBreak
                    ? new W.Break()
                    : new W.Text(Clean(run.Text)) { Space = SpaceProcessingModeValues.Preserve }
            );
            paragraph.Append(
                run.Link is { Length: > 0 } link && LinkTo(link) is { } id ? new W.Hyperlink(made) { Id = id } : made
            );
        }
        return paragraph;
    }

    private static W.RunProperties PropertiesOf(StyledRun run)
    {
        var properties = new W.RunProperties();
        if (run.IsBold)
            properties.Bold = new();
        if (run.IsItalic)
            properties.Italic = new();
        if (run.Link is { Length: > 0 })
            properties.Underline = new() { Val = W.UnderlineValues.Single };
        return properties;
    }

    private string? LinkTo(string address)
    {
        if (links.TryGetValue(address, out var known))
            return known;
        if (!Uri.TryCreate(address, UriKind.RelativeOrAbsolute, out var uri))
            return null;
        var id = $"link{links.Count + 1}";
        main.AddHyperlinkRelationship(uri, isExternal: true, id);
        return links[address] = id;
    }

    // What XML 1.0 cannot hold is left out.
    private static string Clean(string text) =>
        text.All(XmlConvert.IsXmlChar)
            ? text
            : string.Concat(
                text.EnumerateRunes()
                    .Where(rune => rune.Value >= 0x10000 || XmlConvert.IsXmlChar((char)rune.Value))
                    .Select(rune => rune.ToString())
            );

    // The library stamps the files of the package with the time of day.
    private static byte[] WithoutClock(MemoryStream package)
    {
        using var clean = new MemoryStream();
        using (var from = new ZipArchive(package, ZipArchiveMode.Read))
        using (var to = new ZipArchive(clean, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var entry in from.Entries)
            {
                var isPicture = entry.FullName.EndsWith(".png", StringComparison.Ordinal);
                var made = to.CreateEntry(
                    entry.FullName,
                    isPicture ? CompressionLevel.NoCompression : CompressionLevel.Optimal
                );
                made.LastWriteTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);
                using var input = entry.Open();
                using var output = made.Open();
                input.CopyTo(output);
            }
        }
        return clean.ToArray();
    }
}
