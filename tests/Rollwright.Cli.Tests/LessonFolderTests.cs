using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>The folder of a lesson's documents: made, made again, never at a person's cost.</summary>
public class LessonFolderTests
{
    private const string Tune =
        "X:1\nT:Test <script>alert(1)</script> --> & one\nC:Trad.\nM:4/4\nL:1/8\nQ:1/2=80\nK:G\n|:GABc dedc|BGAF G4|GABc dedc|BAGF G4:|\n";

    [Fact]
    public void Documents_are_written_and_written_again_without_a_word()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        var first = place.Run("lesson", "tune.abc", "--out-dir", "out", "--only", "captions");
        first.Should().Be((0, "", ""));
        place.Files.Should().Equal("out/.rollwright-lesson.json", "out/captions.vtt", "out/chapters.vtt", "tune.abc");
        place.Run("lesson", "tune.abc", "--out-dir", "out", "--only", "captions", "--tempo", "40").Code.Should().Be(0);
    }

    [Fact]
    public void A_file_that_was_changed_by_hand_is_left_and_told_in_one_line_unless_forced()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Run("lesson", "tune.abc", "--out-dir", "out", "--only", "captions");
        place.Put("out/captions.vtt", "mine");
        var (code, _, error) = place.Run(
            "lesson",
            "tune.abc",
            "--out-dir",
            "out",
            "--only",
            "captions",
            "--tempo",
            "40"
        );
        code.Should().Be(2);
        error.TrimEnd().Should().NotContain("\n").And.Match("out/captions.vtt: *--force*");
        Read(place, "out/captions.vtt").Should().Be("mine");
        Read(place, "out/chapters.vtt").Should().NotBe("mine", "the others are made all the same");
        place.Run("lesson", "tune.abc", "--out-dir", "out", "--only", "captions", "--force").Code.Should().Be(0);
        Read(place, "out/captions.vtt").Should().StartWith("WEBVTT");
    }

    [Fact]
    public void A_folder_with_other_things_in_it_keeps_them()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        Directory.CreateDirectory(Path.Combine(place.Folder, "out"));
        place.Put("out/captions.vtt", "older than the lesson");
        place.Put("out/notes.txt", "mine");
        var (code, _, error) = place.Run("lesson", "tune.abc", "--out-dir", "out", "--only", "captions");
        code.Should().Be(2);
        error.Should().Contain("captions.vtt").And.NotContain("notes.txt");
        Read(place, "out/captions.vtt").Should().Be("older than the lesson");
        Read(place, "out/notes.txt").Should().Be("mine");
    }

    [Theory]
    [InlineData("{", "*list of what was written*")]
    [InlineData(
        """{"format":"rollwright lesson folder","version":1,"files":{"../tune.abc":{"output":"captions","sha256":"00"}}}""",
        "*list of what was written*"
    )]
    public void A_list_of_files_that_cannot_be_trusted_is_refused(string list, string line)
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        Directory.CreateDirectory(Path.Combine(place.Folder, "out"));
        place.Put("out/.rollwright-lesson.json", list);
        var (code, _, error) = place.Run("lesson", "tune.abc", "--out-dir", "out", "--only", "captions");
        code.Should().Be(2);
        error.TrimEnd().Should().NotContain("\n").And.Match(line);
        place.Files.Should().HaveCount(2);
    }

    [Theory]
    [InlineData("--out-dir tune.abc", "*file*folder*")]
    [InlineData("--out-dir tune.abc/below", "*choose another folder*")]
    [InlineData("--out-dir /proc/lesson", "*choose another folder*")]
    [InlineData("--out-dir out --only pages", "*known are*")]
    [InlineData("--only captions", "*--out-dir*")]
    [InlineData("--out-dir out --paper a3", "*a4, letter*")]
    [InlineData("--out-dir out --tempo 0", "*more than 0*")]
    public void What_cannot_be_done_is_said_in_one_line(string arguments, string line)
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        var (code, output, error) = place.Run(["lesson", "tune.abc", .. arguments.Split(' ')]);
        code.Should().Be(2);
        output.Should().BeEmpty();
        error.TrimEnd().Should().NotContain("\n").And.Match(line);
        Read(place, "tune.abc").Should().Be(Tune);
        place.Files.Should().Equal("tune.abc");
    }

    [Fact]
    public void The_whole_lesson_lies_in_one_folder_and_a_teacher_s_words_and_picture_with_it()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        File.Copy(
            Path.Combine(TestKit.Places.Root, "docs", "pictures", "phone.png"),
            Path.Combine(place.Folder, "me.png")
        );
        place.Put("own.md", "I learnt it *late*.\n\n![A telephone](me.png)\n*My telephone*\n\nCC BY 4.0\n");
        place.Run("lesson", "tune.abc", "--out-dir", "out", "--introduction", "own.md").Should().Be((0, "", ""));
        place
            .Files.Should()
            .Contain([
                "out/article/article.docx",
                "out/article/article.html",
                "out/article/article.md",
                "out/article/figures/figure-01.pdf",
                "out/article/me.png",
                "out/article/tab.txt",
                "out/captions.vtt",
                "out/chapters.vtt",
                "out/handout.pdf",
                "out/jam-sheet.pdf",
                "out/page/index.html",
            ]);
        Read(place, "out/article/article.html").Should().Contain("src=\"me.png\"").And.Contain("My telephone");
        // A second time with other words: what is no longer shown is gone.
        place.Run("lesson", "tune.abc", "--out-dir", "out", "--only", "article").Code.Should().Be(0);
        place.Files.Should().NotContain("out/article/me.png").And.Contain("me.png").And.Contain("out/handout.pdf");
    }

    [Theory]
    [InlineData("--introduction", "a\n\nb ![x](none.png)", "own.md:3:3: none.png: there is no such file*")]
    [InlineData("--introduction", "![x](https://example.org/x.png)", "own.md:1:1: *beside the text*")]
    [InlineData("--introduction", "![x](../tune.abc)", "own.md:1:1: *beside the text*")]
    [InlineData("--introduction", "![x](figures/figure-01.svg)", "own.md:1:1: *a name of its own*")]
    [InlineData("--introduction", "![x](tune.abc)", "own.md:1:1: *PNG, JPEG*")]
    [InlineData("--template", "# {{title}}\n\n{{phrazes}}", "own.md:3:1: *'phrazes'*'phrases'*")]
    public void What_a_teacher_wrote_is_refused_with_line_and_column_and_nothing_is_written(
        string option,
        string text,
        string line
    )
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Put("own.md", text);
        var (code, _, error) = place.Run("lesson", "tune.abc", "--out-dir", "out", option, "own.md");
        code.Should().Be(2);
        error.TrimEnd().Should().NotContain("\n").And.Match(line);
        place.Files.Should().Equal("own.md", "tune.abc");
    }

    [Fact]
    public void A_lesson_in_Markdown_follows_a_template()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Put("own.md", "# My class: {{credit}}\n\n{{practice}}\n");
        var (code, lesson, _) = place.RunAlone("lesson", "tune.abc", "--template", "own.md");
        code.Should().Be(0);
        lesson.Should().StartWith("# My class: Trad.\n\n- ").And.NotContain("#### ").And.NotContain("Drills");
    }

    private static string Read(Workplace place, string name) => File.ReadAllText(Path.Combine(place.Folder, name));
}
