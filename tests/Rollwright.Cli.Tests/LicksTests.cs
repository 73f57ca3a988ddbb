using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary><c>rollwright licks</c>, with a file of the player's own licks in a folder of the test's own.</summary>
public class LicksTests
{
    private const string Tab = "3.0Th2 1.0M 5.0T 1.0M";

    [Fact]
    public void Licks_are_listed_by_what_they_are_for()
    {
        using var place = Empty();
        var (code, output, error) = place.Run(
            Mine("list", "--chord", "C", "--role", "fill", "--level", "2", "--tuning", "open-g", "--register", "low")
        );
        code.Should().Be(0, error);
        output
            .Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Should()
            .OnlyContain(line => line.Contains("  C  fill  "));
        error.Should().Contain("licks");
    }

    [Fact]
    public void A_list_in_json_holds_what_the_tab_says()
    {
        using var place = Empty();
        var (code, output, error) = place.Run(Mine("list", "--role", "tag", "--chord", "Em", "--json"));
        code.Should().Be(0, error);
        var licks = JsonDocument.Parse(output).RootElement.EnumerateArray().ToArray();
        licks.Should().NotBeEmpty();
        foreach (var lick in licks)
        {
            lick.GetProperty("role").GetString().Should().Be("tag");
            lick.GetProperty("chord").GetString().Should().Be("Em");
            lick.GetProperty("tab").GetString()!.Split(' ').Should().HaveCount(lick.GetProperty("steps").GetInt32());
        }
    }

    [Fact]
    public void A_list_without_licks_answers_no()
    {
        using var place = Empty();
        place.Run(Mine("list", "--chord", "G#m")).Code.Should().Be(1);
    }

    [Fact]
    public void A_lick_is_shown_with_its_tab_and_written_in_other_forms()
    {
        using var place = Empty();
        var (code, output, error) = place.Run(Mine("show", "half bar, slide on the third"));
        code.Should().Be(0, error);
        output
            .Should()
            .Contain("fill over G, level 2, 4 steps in twos")
            .And.Contain("G|-2s4")
            .And.Contain("T   I   T   M");
        var number = output.Split(':')[0];
        place.Run(Mine("show", number)).Out.Should().Be(output);
        foreach (var form in new[] { "tab", "pdf", "mid", "musicxml", "json" })
        {
            place.Run(Mine("show", number, "-o", $"lick.{form}")).Code.Should().Be(0, form);
            new FileInfo(Path.Combine(place.Folder, $"lick.{form}")).Length.Should().BeGreaterThan(40, form);
        }
        place.Run("check", "lick.json").Code.Should().Be(0);
    }

    [Fact]
    public void A_lick_is_found_by_words_and_by_a_piece_of_its_tab()
    {
        using var place = Empty();
        place.Run(Mine("find", "third", "slide")).Out.Should().Contain("half bar, slide on the third");
        place.Run(Mine("find", "3.2s4 2.0 5.0")).Out.Should().Contain("half bar, slide on the third");
        place.Run(Mine("find", "zither")).Code.Should().Be(1);
    }

    [Fact]
    public void A_lick_of_ones_own_is_worked_out_kept_and_found_again()
    {
        using var place = Empty();
        var (code, _, error) = place.Run(Mine("add", "--tab", Tab, "--name", "hammer and drone", "--yes"));
        code.Should().Be(0, error);
        error.Should().Contain("fill over G, level 2, 4 steps in twos, low on the neck, 1 slur, open G");
        var kept = place.Run(Mine("find", "hammer and drone", "--json")).Out;
        JsonDocument.Parse(kept).RootElement[0].GetProperty("own").GetBoolean().Should().BeTrue();
        place.Run(Mine("show", "hammer and drone")).Out.Should().Contain("your own").And.Contain(Tab);
        place.Run(Mine("add", "--tab", Tab, "--name", "again", "--yes")).Err.Should().Contain("[same-notes]");
        place
            .Run(
                Mine("add", "--tab", "3.0T 2.0I 4.4T:3 3.0I", "--name", "down", "--chord", "G", "--next", "Em", "--yes")
            )
            .Code.Should()
            .Be(0);
        File.ReadAllLines(Path.Combine(place.Folder, "mine.txt")).Should().HaveCount(3);
    }

    [Fact]
    public void A_file_that_is_named_must_be_there_to_be_read_and_is_made_to_be_added_to()
    {
        using var place = new Workplace();
        place.Run(Mine("list")).Err.Should().Contain("mine.txt: there is no such file");
        place.Run(Mine("add", "--tab", Tab, "--name", "first", "--yes")).Code.Should().Be(0);
        place.Run(Mine("show", "first")).Code.Should().Be(0);
    }

    [Fact]
    public void Without_a_terminal_nothing_is_kept_unless_it_is_said()
    {
        using var place = Empty();
        var (code, _, error) = place.RunAlone(Mine("add", "--tab", Tab, "--name", "x"));
        code.Should().Be(2);
        error.Should().Contain("fill over G").And.Contain("give --yes");
        File.ReadAllText(Path.Combine(place.Folder, "mine.txt")).Should().BeEmpty();
    }

    [Fact]
    public void A_wrong_line_of_ones_own_file_is_said_and_costs_no_other()
    {
        using var place = Empty();
        place.Put(
            "mine.txt",
            "name | role | tuning | chord | level | beats | tab\n"
                + $"good | fill | open-g | G | 2 | twos | {Tab}\n"
                + "bad | fill | open-g | G | 1 | twos | 3.0T 2.0T 5.0T 1.0M\n"
        );
        var (code, output, error) = place.Run(Mine("find", "good"));
        code.Should().Be(2);
        output.Should().Contain("good");
        error.Should().Contain("mine.txt:3:38: bad: step 2: T has just played one step before [finger-again]; change");
    }

    [Theory]
    [InlineData("list --chord H", "--chord: 'H' is not a chord")]
    [InlineData("list --role jump", "'jump' is none of fill, run, pickup, turnaround, tag")]
    [InlineData("list --level 7", "a level is 1 to 5")]
    [InlineData("list --register high", "'high' is none of low, middle, up")]
    [InlineData("list --tuning lute", "no tuning is called 'lute'")]
    [InlineData("show nothing", "no lick is called 'nothing'")]
    [InlineData("show 1 -o lick.docx", "no form is called 'docx'")]
    [InlineData("add --name x --yes --tab 3.0Q", "--tab:1:1: '3.0Q' is not a note")]
    [InlineData("add --name x --yes --tab 3.0T+3.2I", "--tab:1:1: '3.0T+3.2I' asks string 3 for two notes")]
    [InlineData("add --name 12 --yes --tab 3.0T", "'12' cannot be a name")]
    [InlineData("add --name x --yes --tab 5.0Th7", "[slur-on-short-string]; change the tab there")]
    [InlineData("add --name x --tab 3.0T --beats fives", "'fives' is neither twos nor threes")]
    [InlineData("add --name x", "rollwright --help")]
    public void A_wrong_request_is_answered_with_the_remedy(string request, string answer)
    {
        using var place = Empty();
        var (code, _, error) = place.Run(Mine(request.Split(' ')));
        code.Should().Be(2, error);
        error.Should().Contain(answer).And.NotContain("   at ");
        File.ReadAllText(Path.Combine(place.Folder, "mine.txt")).Should().BeEmpty();
    }

    private static string[] Mine(params string[] arguments) => ["licks", .. arguments, "--bank", "mine.txt"];

    // The player's file is there, with nothing in it yet.
    private static Workplace Empty()
    {
        var place = new Workplace();
        place.Put("mine.txt", "");
        return place;
    }
}
