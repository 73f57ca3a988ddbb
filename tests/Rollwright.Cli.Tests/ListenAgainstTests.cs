using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

/// <summary>A take beside a break, from the command line: the break's own sound, and what is no take of it.</summary>
public class ListenAgainstTests
{
    private const string Tune =
        "X:1\nT:Test\nC:Trad.\nM:4/4\nL:1/8\nQ:1/2=60\nK:G\nGABc dedc|BGAF G4|GABc dedc|BAGF G4|]\n";

    [Fact]
    public void The_sound_of_a_break_is_that_break_and_its_bars_are_timed_for_a_lesson()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Run("arrange", "tune.abc", "-o", "break.json").Code.Should().Be(0);
        place.Run("render", "break.json", "-o", "take.wav").Code.Should().Be(0);
        var (code, said, _) = place.Run(
            "listen",
            "take.wav",
            "--against",
            "break.json",
            "--json",
            "--bar-times",
            "times.json"
        );
        code.Should().Be(0);
        var found = JsonDocument.Parse(said).RootElement;
        found.GetProperty("follows").GetBoolean().Should().BeTrue();
        found
            .GetProperty("notes")
            .EnumerateArray()
            .Should()
            .OnlyContain(note => note.GetProperty("label").GetString() == "ok");
        // Two seconds a bar at half note = 60.
        found
            .GetProperty("barStarts")
            .EnumerateArray()
            .Select((start, bar) => Math.Abs(start.GetDouble() - (2 * bar)))
            .Should()
            .HaveCount(4)
            .And.OnlyContain(off => off < 0.02);
        place
            .Run("lesson", "tune.abc", "--out-dir", "out", "--only", "captions", "--bar-times", "times.json")
            .Code.Should()
            .Be(0);
    }

    [Fact]
    public void Another_break_is_told_from_it_and_wrong_requests_are_one_line()
    {
        using var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Put("other.abc", Tune.Replace("GABc dedc", "ecAF DFAd", StringComparison.Ordinal));
        place.Run("arrange", "tune.abc", "-o", "break.json").Code.Should().Be(0);
        place.Run("arrange", "other.abc", "-o", "other.json").Code.Should().Be(0);
        place.Run("render", "other.json", "-o", "take.wav").Code.Should().Be(0);
        var (code, said, _) = place.Run("listen", "take.wav", "--against", "break.json");
        code.Should().Be(1);
        said.Should().Contain("This take does not follow the break").And.NotContain("Phrase");
        place
            .Run("listen", "take.wav", "take.wav", "--bar-times", "t.json")
            .Err.Should()
            .Contain("--bar-times writes one file");
    }
}
