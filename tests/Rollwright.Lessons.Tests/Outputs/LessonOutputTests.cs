using System.Text;
using System.Xml.Linq;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Validation;
using DocumentFormat.OpenXml.Wordprocessing;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Captions;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Plan;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Outputs;

/// <summary>A lesson's documents, judged by outside readers: poppler, qpdf, the Open XML SDK's validator.</summary>
public sealed class LessonOutputTests : IDisposable
{
    private const string Wicked = "<script>alert(1)</script> [x](javascript:alert(2)) & \"--> **b** | \u0001end";

    private readonly string folder = Directory.CreateTempSubdirectory("rollwright").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void The_handout_has_its_fonts_inside_no_fault_and_text_that_can_be_searched()
    {
        var path = Write(Only("handout", Sample()));
        var rows = Outside
            .Run("pdffonts", path)
            .Out.Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Skip(2)
            .ToList();
        rows.Should().NotBeEmpty();
        rows.Select(row => row.Split(' ', StringSplitOptions.RemoveEmptyEntries)[^5])
            .Should()
            .OnlyContain(cell => cell == "yes");
        Outside.Run("qpdf", "--check", path).Code.Should().Be(0);
        Outside.Run("pdfinfo", path).Out.Should().MatchRegex(@"Title:\s+The Kettle Path");
        var text = Outside.Run("pdftotext", "-layout", path, "-").Out;
        string[] heads =
        [
            "The Kettle Path",
            "Setting up",
            "The form",
            "How to read it",
            "The whole break",
            "Phrase by phrase",
            "Drills",
            "How to practise it",
            "Phrases that come back",
        ];
        heads
            .Select(head => text.IndexOf(head, StringComparison.Ordinal))
            .Should()
            .BeInAscendingOrder()
            .And.NotContain(-1);
        text.Should().Contain("stop at pain").And.Contain("Rollwright sample");
    }

    [Fact]
    public void Pages_of_the_handout_have_numbers_and_from_the_second_on_a_running_title_at_the_outer_side()
    {
        var path = Write(Only("handout", Sample()));
        var pages = Outside
            .Run("pdftotext", "-layout", path, "-")
            .Out.Split('\f', StringSplitOptions.RemoveEmptyEntries);
        pages.Length.Should().BeGreaterThan(2);
        for (var i = 0; i < pages.Length; i++)
        {
            var lines = pages[i].Split('\n', StringSplitOptions.RemoveEmptyEntries);
            lines[^1].Trim().Should().Be($"{i + 1}");
            var indent = lines[^1].Length - lines[^1].TrimStart().Length;
            (indent > 20).Should().Be(i % 2 == 0, "odd pages lie at the right");
            if (i > 0)
                lines[0].Trim().Should().Be("The Kettle Path");
        }
    }

    [Fact]
    public void The_jam_sheet_is_one_page_in_the_sounding_key_for_every_tune()
    {
        foreach (var played in SharedBreaks.All())
        {
            var path = Write(Only("jam-sheet", Lesson.Of(LessonPlan.Of(played))));
            Outside.Run("pdfinfo", path).Out.Should().MatchRegex(@"Pages:\s+1\n", played.Title);
            var text = Outside.Run("pdftotext", "-layout", path, "-").Out;
            text.Should().Contain($"n {played.Setting.SoundingKey}", played.Title);
        }
    }

    [Fact]
    public void The_article_in_DOCX_is_valid_and_each_picture_has_words_for_those_who_do_not_see_it()
    {
        foreach (var lesson in new[] { Sample(), Lesson.Of(LessonPlan.Of(SampleBreaks.Small with { Title = Wicked })) })
        {
            var docx = Only("article", lesson).Single(file => file.Path == "article/article.docx");
            using var stream = new MemoryStream(docx.Bytes);
            using var document = WordprocessingDocument.Open(stream, isEditable: false);
            new OpenXmlValidator()
                .Validate(document)
                .Select(fault => $"{fault.Path?.XPath}: {fault.Description}")
                .Should()
                .BeEmpty();
            var body = document.MainDocumentPart!.Document!.Body!;
            var pictures = body.Descendants<DocumentFormat.OpenXml.Drawing.Wordprocessing.DocProperties>().ToList();
            pictures.Count.Should().BeGreaterThan(3);
            pictures.Should().OnlyContain(picture => picture.Description!.Value!.Length > 10);
            body.Descendants<Paragraph>()
                .Count(paragraph => paragraph.ParagraphProperties?.ParagraphStyleId?.Val == "Caption")
                .Should()
                .Be(pictures.Count);
        }
    }

    [Fact]
    public void The_article_numbers_its_figures_and_lists_them_and_has_each_in_three_forms()
    {
        var files = Only("article", Sample());
        var text = Text(files, "article/article.md");
        var names = files.Select(file => file.Path).ToList();
        var count = names.Count(name => name.EndsWith(".svg", StringComparison.Ordinal));
        for (var i = 1; i <= count; i++)
        {
            text.Should().Contain($"](figures/figure-{i:00}.svg)\n*Figure {i}. ").And.Contain($"\n- Figure {i}. ");
            names.Should().Contain([$"article/figures/figure-{i:00}.pdf", $"article/figures/figure-{i:00}.png"]);
        }
        text.Should().NotContain($"Figure {count + 1}.");
        // 85 mm at 300 dots an inch.
        using var png = SkiaSharp.SKCodec.Create(
            new MemoryStream(files.First(file => file.Path.EndsWith("04.png", StringComparison.Ordinal)).Bytes)
        );
        png.Info.Width.Should().Be((int)Math.Ceiling(85 / 25.4 * 300));
    }

    [Fact]
    public void Nothing_in_a_title_becomes_markup()
    {
        var files = Only("article", Lesson.Of(LessonPlan.Of(SampleBreaks.Small with { Title = Wicked })));
        var html = Text(files, "article/article.html");
        html.Should().NotContain("<script").And.NotContain("href=\"javascript").And.Contain("&lt;script&gt;alert(1)");
        // Written as XML would have it too, so that an XML reader is the judge of its structure.
        var tree = XDocument.Parse(html.Replace("<!DOCTYPE html>", ""), LoadOptions.None);
        tree.Descendants("img").Should().OnlyContain(image => image.Attribute("alt")!.Value.Length > 0);
        tree.Descendants()
            .Select(element => element.Name.LocalName)
            .Distinct()
            .Should()
            .NotContain("a")
            .And.NotContain("strong");
    }

    [Fact]
    public void The_whole_lesson_is_the_same_bytes_each_time()
    {
        var (one, other) = (All(Sample()), All(Sample()));
        one.Select(file => file.Path).Should().Equal(other.Select(file => file.Path)).And.OnlyHaveUniqueItems();
        foreach (var (first, second) in one.Zip(other))
            first.Bytes.AsSpan().SequenceEqual(second.Bytes).Should().BeTrue(first.Path);
    }

    [Fact]
    public void Every_document_that_carries_the_tune_says_whose_it_is_and_what_concerns_the_teacher_alone_stands_in_none()
    {
        const string whose = "A. Nobody";
        var files = All(Lesson.Of(LessonPlan.Of(SampleBreaks.Small with { Composer = whose })));
        string[] texts =
        [
            "article/article.md",
            "article/article.html",
            "article/tab.txt",
            "captions.vtt",
            "chapters.vtt",
            "page/index.html",
        ];
        foreach (var name in texts)
            Text(files, name).Should().Contain(whose, name).And.NotContain("Before publishing", name);
        foreach (var name in new[] { "handout.pdf", "jam-sheet.pdf" })
        {
            var path = Write(files.Where(file => file.Path == name));
            Outside
                .Run("pdftotext", path, "-")
                .Out.Should()
                .Contain(whose, name)
                .And.NotContain("Before publishing", name);
        }
    }

    [Fact]
    public void Links_of_an_introduction_lead_to_the_net_only_and_its_markup_is_text()
    {
        var words = new Introduction(
            "See [here](https://example.org/a?b=c&d) or [there](JaVa\tScript:alert(1)) <img src=x onerror=alert(1)>.",
            Introduction.None.Pictures
        );
        var files = Only("article", Sample() with { Introduction = words });
        var html = Text(files, "article/article.html");
        html.Should()
            .Contain("href=\"https://example.org/a?b=c&amp;d\"")
            .And.NotContain("<img src=x")
            .And.NotContainEquivalentOf("javascript:");
        using var stream = new MemoryStream(
            files.Single(file => file.Path.EndsWith(".docx", StringComparison.Ordinal)).Bytes
        );
        using var document = WordprocessingDocument.Open(stream, isEditable: false);
        document
            .MainDocumentPart!.HyperlinkRelationships.Select(link => link.Uri.ToString())
            .Should()
            .Equal("https://example.org/a?b=c&d");
        new OpenXmlValidator().Validate(document).Should().BeEmpty();
    }

    [Fact]
    public void Every_tune_of_the_test_data_makes_a_valid_column_and_a_handout_without_a_fault()
    {
        foreach (var made in SharedBreaks.Made(ArrangeOptions.Default, first: 3, every: 9))
        {
            var lesson = Lesson.Of(LessonPlan.Of(made, 3)) with { Made = made };
            var docx = Only("article", lesson).Single(file => file.Path == "article/article.docx");
            using var stream = new MemoryStream(docx.Bytes);
            using var document = WordprocessingDocument.Open(stream, isEditable: false);
            new OpenXmlValidator().Validate(document).Should().BeEmpty(made.Break.Title);
            Outside.Run("qpdf", "--check", Write(Only("handout", lesson))).Code.Should().Be(0, made.Break.Title);
        }
    }

    private static Lesson Sample() => Lesson.Of(LessonPlan.Of(SampleBreaks.Small));

    private static List<LessonFile> Only(string output, Lesson lesson) => [.. LessonOutput.Find(output)!.Make(lesson)];

    private static List<LessonFile> All(Lesson lesson) =>
        [.. LessonOutput.All.SelectMany(output => output.Make(lesson))];

    private static string Text(IEnumerable<LessonFile> files, string path) =>
        Encoding.UTF8.GetString(files.Single(file => file.Path == path).Bytes);

    private string Write(IEnumerable<LessonFile> files)
    {
        var file = files.Single();
        var path = Path.Combine(folder, Path.GetFileName(file.Path));
        File.WriteAllBytes(path, file.Bytes);
        return path;
    }
}
