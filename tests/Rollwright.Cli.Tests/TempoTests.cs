using System.Text.Json;
using Rollwright.TestKit;

namespace Rollwright.Cli.Tests;

public class TempoTests
{
    [Fact]
    public void Check_says_up_to_which_tempo_each_bar_is_comfortable()
    {
        using var place = new Workplace();
        var tune = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        place.Run("arrange", tune, "-o", "wren.json").Code.Should().Be(0);

        var (code, table, error) = place.Run("check", "--tempo", "wren.json");
        code.Should().Be(0, error);
        table.Should().Contain("in half notes a minute").And.Contain("limited by bar");

        (code, var answer, error) = place.Run("check", "--tempo", "--json", "wren.json");
        code.Should().Be(0, error);
        var tempo = JsonDocument.Parse(answer).RootElement.GetProperty("tempo");
        tempo.GetProperty("unit").GetString().Should().Be("1/2");
        var slowest = tempo
            .GetProperty("bars")
            .EnumerateArray()
            .Where(bar => bar.GetProperty("perMinute").ValueKind == JsonValueKind.Number)
            .MinBy(bar => bar.GetProperty("perMinute").GetDouble());
        slowest.GetProperty("perMinute").GetDouble().Should().Be(tempo.GetProperty("perMinute").GetDouble());
        tempo
            .GetProperty("limiting")
            .EnumerateArray()
            .Select(bar => bar.GetInt32())
            .Should()
            .Contain(slowest.GetProperty("bar").GetInt32());
    }
}
