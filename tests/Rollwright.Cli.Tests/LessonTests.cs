using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

public class LessonTests
{
    private const string Tune =
        "X:1\nT:Test\nC:Trad.\nM:4/4\nL:1/8\nQ:1/2=80\nK:G\n|:GABc dedc|BGAF G4|GABc dedc|BAGF G4:|\n|:g2fg e2d2|B2AB G4|g2fg e2d2|BAGF G4:|\n";

    [Fact]
    public void A_lesson_goes_from_setting_up_to_practice()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        var (code, _, _) = place.Run("lesson", "tune.abc", "-o", "lesson.md");
        code.Should().Be(0);
        var lesson = File.ReadAllText(Path.Combine(place.Folder, "lesson.md"));
        string[] heads =
        [
            "# Test",
            "## What you will learn",
            "## Setting up",
            "## The form",
            "## Phrase by phrase",
            "## Drills",
            "## Variations",
            "## Behind the others",
            "## How to practise it",
        ];
        heads
            .Select(head => lesson.IndexOf(head, StringComparison.Ordinal))
            .Should()
            .BeInAscendingOrder()
            .And.NotContain(-1);
        lesson.Split("stop at pain").Should().HaveCount(2, "a caution is given once");
    }

    [Fact]
    public void A_person_s_words_come_from_a_file_and_a_break_can_be_taught_alone()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Run("arrange", "tune.abc", "-o", "tune.json");
        var (code, output, _) = place.RunAlone("lesson", "tune.json", "--json");
        code.Should().Be(0);
        using var answer = JsonDocument.Parse(output);
        var notes = answer.RootElement.GetProperty("phrases")[0].GetProperty("notes").GetString();
        var number = answer.RootElement.GetProperty("phrases")[0].GetProperty("phrase").GetInt32();
        place.Put(
            "words.json",
            $$"""{"format":"rollwright lesson text","version":1,"edits":[{"phrase":{{number}},"notes":"{{notes}}","text":"My own words."}]}"""
        );
        var (_, lesson, _) = place.RunAlone("lesson", "tune.json", "--words", "words.json");
        lesson.Should().Contain("My own words.").And.NotContain("other notes");
    }

    [Theory]
    [InlineData("{}", "*tune.txt*")]
    [InlineData("X:1\nT:Empty\nK:G\n", "tune.txt:1:1: *")]
    [InlineData("", "*tune.txt*")]
    public void What_cannot_be_taught_is_refused_in_one_line(string text, string line)
    {
        using var place = new Workplace();
        place.Put("tune.txt", text);
        var (code, output, error) = place.Run("lesson", "tune.txt");
        code.Should().Be(2);
        output.Should().BeEmpty();
        error.TrimEnd().Should().NotContain("\n").And.Match(line);
    }

    [Fact]
    public void Words_that_are_no_file_of_words_are_refused_in_one_line()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Put("words.json", "[]");
        var (code, _, error) = place.Run("lesson", "tune.abc", "--words", "words.json");
        code.Should().Be(2);
        error.TrimEnd().Should().NotContain("\n").And.StartWith("words.json: ");
    }
}
