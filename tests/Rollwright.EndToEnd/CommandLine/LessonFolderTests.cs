namespace Rollwright.EndToEnd.CommandLine;

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

    private static string Read(Workplace place, string name) => File.ReadAllText(Path.Combine(place.Folder, name));
}
