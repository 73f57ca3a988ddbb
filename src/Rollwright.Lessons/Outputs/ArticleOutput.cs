using System.Text;
using Rollwright.Engraving;
using Rollwright.Engraving.Pdf;
using Rollwright.Engraving.Png;
using Rollwright.Engraving.Svg;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Documents.Printing;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Templates;

namespace Rollwright.Lessons.Outputs;

/// <summary>What an editor needs for a column: the text in three forms, the figures in three, the tab as plain text.</summary>
internal static class ArticleOutput
{
    private const string Folder = "article/";
    private const double PrintDpi = 300;

    // White between two columns, which the whole break goes over, mm (assumption).
    private const double Gutter = 5;

    public static IEnumerable<LessonFile> Make(Lesson lesson)
    {
        var (text, document, figures) = Compose(lesson);
        var pictures = figures.Figures.AsParallel().AsOrdered().Select(PicturesOf).ToList();
        List<LessonFile> files =
        [
            Written("article.md", text),
            Written("article.html", HtmlPrinter.Print(document)),
            Written("tab.txt", TabOf(lesson)),
            .. pictures.SelectMany(of => of),
            .. lesson.Introduction.Pictures.Select(picture => new LessonFile(
                Folder + Introduction.PathOf(picture.Key),
                picture.Value.Bytes
            )),
        ];
        var pngs = files
            .Where(file => file.Path.EndsWith(".png", StringComparison.Ordinal))
            .ToDictionary(file => Path.GetFileNameWithoutExtension(file.Path), file => file.Bytes);
        files.Add(new(Folder + "article.docx", DocxPrinter.Print(document, figure => pngs[figure.Name])));
        return files;
    }

    /// <summary>The column as one HTML file with its figures inside, to be looked at while its words are written.</summary>
    public static string Look(Lesson lesson) => HtmlPrinter.Print(Compose(lesson).Document, Inside);

    private static string Inside(LessonDocument.Shown shown)
    {
        var (type, bytes) = shown.Figure is { } figure
            ? ("image/svg+xml", SvgOf(figure))
            : (shown.Picture!.MediaType, shown.Picture.Bytes);
        return $"data:{type};base64,{Convert.ToBase64String(bytes)}";
    }

    private static byte[] SvgOf(BookFigure figure) =>
        Encoding.UTF8.GetBytes(SvgWriter.Write(figure.Drawing, 0, new() { EmbedFonts = true }));

    private static (string Text, LessonDocument Document, FigureBook Figures) Compose(Lesson lesson)
    {
        var (title, played) = (lesson.Plan.Tune.Title, lesson.Plan.Played);
        var column = lesson.ColumnWidth * 72 / 25.4;
        var whole = Math.Min((2 * column) + (Gutter * 72 / 25.4), WidestWhole);
        var look = new FigureLook(
            column,
            Math.Max(column, whole),
            null,
            PageStyle.A4 with
            {
                ShowLeftHand = true,
            },
            IsNumbered: true
        );
        var figures = new FigureBook(look, "figures/");
        var text = LessonPlaces.Fill(lesson.Template ?? LessonTemplates.Article, lesson, figures);
        var document = new LessonDocument(title, played.Composer, text, figures, lesson.Introduction);
        return (text, document, figures);
    }

    // Two columns of a wide magazine page, points: more is no page.
    private const double WidestWhole = 540;

    private static List<LessonFile> PicturesOf(BookFigure figure)
    {
        var path = $"{Folder}figures/{figure.Name}";
        return
        [
            new($"{path}.svg", SvgOf(figure)),
            new($"{path}.pdf", PdfWriter.Write(figure.Drawing)),
            new($"{path}.png", PngWriter.Write(figure.Drawing, 0, PrintDpi)),
        ];
    }

    private static string TabOf(Lesson lesson) =>
        $"{Formats.TextTab.TextTabWriter.Write(lesson.Plan.Played).TrimEnd()}\n\n{lesson.Plan.Tune.Rights.Words}\n";

    private static LessonFile Written(string name, string text) => new(Folder + name, Encoding.UTF8.GetBytes(text));
}
