using System.Text;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>Whatever the file holds: a sensible break, or exit code 2 with one clear line and nothing half-written.</summary>
public class BadInputTests
{
    private const string Head = "X:1\nT:Test\nM:4/4\nL:1/8\nK:G\n";

    public static TheoryData<string, string> Refused =>
        new()
        {
            { "empty", "" },
            { "binary", "\u0001\0\u0002\u0003\0ELF" },
            { "no notes", Head + "z8|z8|\n" },
            { "no tune", "hello, this is a letter\n" },
            { "out of range", Head + "C,,,,C,,,,C,,,,C,,,,|\n" },
        };

    public static TheoryData<string, string> Arranged =>
        new()
        {
            { "one note", Head + "G8|\n" },
            { "one short note", Head + "G|\n" },
            { "thirteen eighths", "X:1\nT:Test\nM:13/8\nL:1/8\nK:G\nGABcdefgfedcB|G13|\n" },
            { "two hundred notes in a bar", Head + string.Concat(Enumerable.Repeat("GABc", 50)) + "|\n" },
            {
                "sixty-four parts",
                Head + string.Concat(Enumerable.Range(1, 64).Select(i => $"P:{i}\n|:GABc dedc:|\n"))
            },
            { "unbalanced repeats", Head + ":|GABc dedc|:GABc|::dedc|]\n" },
            { "zero-length notes", Head + "G0A0 GABc dedc|\n" },
            { "unknown key", "X:1\nT:Test\nM:4/4\nL:1/8\nK:H sharp\nGABc dedc|\n" },
            { "sixteenths in common time", "X:1\nT:Test\nM:4/4\nL:1/16\nK:G\nGABcdedcBAGABcde|G16|\n" },
        };

    [Theory]
    [MemberData(nameof(Refused))]
    public void A_file_that_holds_no_tune_for_a_banjo_is_refused_in_one_line(string what, string text)
    {
        using var place = new Workplace();
        place.Put("tune.abc", Encoding.UTF8.GetBytes(text));
        var (code, output, error) = place.Run("arrange", "tune.abc", "-o", "out.pdf");
        code.Should().Be(2, what);
        output.Should().BeEmpty();
        error.Should().Contain("tune.abc").And.NotContain("   at ");
        error.Trim().Split('\n').Should().HaveCountLessThan(4, error);
        place.Files.Should().Equal("tune.abc");
    }

    [Theory]
    [MemberData(nameof(Arranged))]
    public void A_strange_tune_still_makes_a_break_that_hands_can_play(string what, string text)
    {
        using var place = new Workplace();
        place.Put("tune.abc", text);
        var (code, _, error) = place.Run(
            "arrange",
            "tune.abc",
            "--out-dir",
            ".",
            "--to",
            "json,tab,musicxml,mid,pdf,svg,wav"
        );
        code.Should().Be(0, $"{what}: {error}");
        error.Should().NotContain("   at ");
        place.Run("check", "tune.json").Code.Should().Be(0, what);
    }

    [Fact]
    public void A_bad_file_costs_the_others_of_the_batch_nothing()
    {
        using var place = new Workplace();
        place.Put("bad.abc", "");
        place.Put("good.abc", Head + "GABc dedc|G8|\n");
        var (code, _, error) = place.Run(
            "arrange",
            "bad.abc",
            "good.abc",
            "gone.abc",
            "--out-dir",
            "out",
            "--to",
            "tab"
        );
        code.Should().Be(2);
        error.Should().Contain("bad.abc:1:1:").And.Contain("gone.abc: there is no such file");
        place.Files.Should().Equal("bad.abc", "good.abc", Path.Combine("out", "good.tab"));
    }

    [Fact]
    public void A_file_of_fifty_megabytes_is_refused_at_once()
    {
        using var place = new Workplace();
        place.Put("huge.abc", Encoding.ASCII.GetBytes(Head + new string('G', 50_000_000)));
        var (code, _, error) = place.Run("arrange", "huge.abc", "-o", "out.tab");
        code.Should().Be(2);
        error.Should().Contain("huge.abc").And.Contain("larger than");
    }

    [Theory]
    [InlineData("arrange tune.abc --capo 40", "a capo is at fret 0 to 12")]
    [InlineData("arrange tune.abc --tuning lute", "no tuning is called 'lute'")]
    [InlineData("arrange tune.abc --key Q", "'Q' is not a key")]
    [InlineData("arrange tune.abc --level 9", "a level is 1 to 5")]
    [InlineData("arrange tune.abc -o tune.docx", "no form is called 'docx'")]
    [InlineData("render tune.abc -o tune.pdf", "tune.abc")]
    [InlineData("check nothing.json", "there is no such file")]
    [InlineData("dance", "rollwright --help")]
    public void A_wrong_request_is_answered_with_the_remedy(string request, string answer)
    {
        using var place = new Workplace();
        place.Put("tune.abc", Head + "GABc dedc|G8|\n");
        var (code, _, error) = place.Run(request.Split(' '));
        code.Should().Be(2, error);
        error.Should().Contain(answer).And.NotContain("   at ");
    }

    [Fact]
    public void Several_tunes_of_a_file_carry_their_number_and_title()
    {
        using var place = new Workplace();
        place.Put("two.abc", Head + "GABc dedc|\n\nX:7\nT:Second One!\nM:4/4\nL:1/8\nK:G\nBcde dcBA|\n");
        place.Run("arrange", "two.abc", "--out-dir", "out", "--to", "tab").Code.Should().Be(0);
        place
            .Files.Should()
            .Equal(Path.Combine("out", "two-1-test.tab"), Path.Combine("out", "two-7-second-one.tab"), "two.abc");
    }

    [Fact]
    public void Tunes_of_one_number_and_title_do_not_overwrite_each_other()
    {
        using var place = new Workplace();
        place.Put("twice.abc", Head + "GABc dedc|\n\n" + Head + "Bcde dcBA|\n");
        place.Run("arrange", "twice.abc", "--out-dir", "out", "--to", "tab").Code.Should().Be(0);
        place
            .Files.Should()
            .Equal(Path.Combine("out", "twice-1-test-2.tab"), Path.Combine("out", "twice-1-test.tab"), "twice.abc");
    }

    [Fact]
    public void Check_answers_no_with_exit_code_one()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Head + "GABc dedc|G8|\n");
        place.Run("arrange", "tune.abc", "-o", "tune.json").Code.Should().Be(0);
        var text = File.ReadAllText(Path.Combine(place.Folder, "tune.json"));
        // Every finger becomes the thumb: it cannot play every step.
        place.Put(
            "bad.json",
            text.Replace("\"I\"", "\"T\"", StringComparison.Ordinal)
                .Replace("\"M\"", "\"T\"", StringComparison.Ordinal)
                .Replace("\"i\"", "\"t\"", StringComparison.Ordinal)
                .Replace("\"m\"", "\"t\"", StringComparison.Ordinal)
        );
        var (code, output, _) = place.Run("check", "bad.json");
        code.Should().Be(1, output);
        output.Should().Contain("bar 1").And.Contain("finger-again");
    }
}
