using Rollwright.TestKit;

namespace Rollwright.HouseRules;

/// <summary>What is started on Windows and what is started elsewhere do the same.</summary>
public class StartTests
{
    [Fact]
    public void Both_scripts_give_the_program_the_same_orders()
    {
        var orders = Orders("start");
        orders.Should().HaveCountGreaterThan(4);
        Orders("start.ps1").Should().Equal(orders);
    }

    [Fact]
    public void Both_publish_alike_and_say_the_same()
    {
        foreach (var begin in new[] { "dotnet publish ", "The demo tunes " })
            From("start.ps1", begin).Should().Equal(From("start", begin)).And.ContainSingle();
    }

    // "lesson data/demo/x.abc --out-dir out/lesson", whichever shell writes it.
    private static List<string> Orders(string script) =>
        [
            .. new[] { "arrange ", "render ", "lesson ", "serve " }.SelectMany(order =>
                From(script, $"rollwright {order}").Select(line => line.Replace("@tunes", "data/demo/*.abc"))
            ),
        ];

    // Lines without quotes from some words on; what the shell itself passes on is left off, and lines that go on are one.
    private static List<string> From(string script, string begin) =>
        [
            .. File.ReadAllText(Path.Combine(Places.Root, script))
                .ReplaceLineEndings("\n")
                .Replace("\\\n  ", "")
                .Replace("\"", "")
                .Replace("'", "")
                .Replace("$rollwright", "rollwright")
                .Split('\n')
                .Where(line => line.Contains(begin, StringComparison.Ordinal) && !line.TrimStart().StartsWith('#'))
                .Select(line => line[line.IndexOf(begin, StringComparison.Ordinal)..])
                .Select(line => line.Replace("$@", "").Replace("@args", "").Trim()),
        ];
}
