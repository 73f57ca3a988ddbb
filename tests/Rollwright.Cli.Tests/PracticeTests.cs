using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

public class PracticeTests
{
    private const string Tune =
        "X:1\nT:Test\nM:4/4\nL:1/8\nQ:1/2=80\nK:G\n|:GABc dedc|BGAF G4|GABc dedc|BAGF G4:|\n|:g2fg e2d2|B2AB G4|g2fg e2d2|BAGF G4:|\n";

    [Fact]
    public void A_plan_says_what_is_hard_what_to_do_today_and_when_it_returns()
    {
        using var place = Arranged();
        var (code, output, _) = place.Run("practice", "tune.json", "--from", "2026-12-01", "--tempo", "100");
        code.Should().Be(0);
        output
            .Should()
            .Contain("up to half note = 100")
            .And.Contain("Hardest first")
            .And.Contain("Tue 1 Dec 2026, 25 minutes")
            .And.Contain("stop at pain");
    }

    [Fact]
    public void The_machine_s_answer_holds_the_same_plan()
    {
        using var place = Arranged();
        var (code, output, _) = place.Run("practice", "tune.json", "--from", "2026-12-01", "--minutes", "40", "--json");
        code.Should().Be(0);
        using var answer = JsonDocument.Parse(output);
        var first = answer.RootElement.GetProperty("sessions")[0];
        first.GetProperty("day").GetString().Should().Be("2026-12-01");
        first
            .GetProperty("exercises")
            .EnumerateArray()
            .Sum(exercise => exercise.GetProperty("minutes").GetInt32())
            .Should()
            .Be(40);
    }

    [Theory]
    [InlineData("--tempo", "0")]
    [InlineData("--tempo", "10000")]
    [InlineData("--days", "0")]
    [InlineData("--minutes", "1000")]
    [InlineData("--from", "yesterday")]
    public void What_cannot_be_planned_is_refused_in_one_line(string option, string value)
    {
        using var place = Arranged();
        var (code, output, error) = place.Run("practice", "tune.json", option, value);
        code.Should().Be(2);
        output.Should().BeEmpty();
        error.Should().Contain(option).And.NotContain("   at ");
    }

    private static Workplace Arranged()
    {
        var place = new Workplace();
        place.Put("tune.abc", Tune);
        place.Run("arrange", "tune.abc", "-o", "tune.json").Code.Should().Be(0);
        return place;
    }
}
