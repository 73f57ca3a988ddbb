using System.Text.RegularExpressions;
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
        foreach (var pattern in new[] { "dotnet publish .*", "The demo tunes[^'\"]*" })
            Found("start.ps1", pattern).Should().Equal(Found("start", pattern)).And.ContainSingle();
    }

    // "lesson data/demo/x.abc --out-dir out/lesson", as the one shell and the other write it.
    private static List<string> Orders(string script) =>
        [
            .. Found(script, @"rollwright""?\s+(arrange|render|lesson|serve)\b.*")
                .Select(order => Regex.Replace(order, "[\"'@]", ""))
                .Select(order => Regex.Replace(order, @"^rollwright\s+", ""))
                .Select(order => Regex.Replace(order, @"data/demo/\*\.abc|\btunes\b", "TUNES"))
                .Select(order => Regex.Replace(order, @"\s*\$?\b(args)?$", "").Trim())
                .Select(order => Regex.Replace(order, "^serve.*", "serve")),
        ];

    // Lines that go on in the next are one.
    private static List<string> Found(string script, string pattern) =>
        [
            .. Regex
                .Matches(Regex.Replace(File.ReadAllText(Path.Combine(Places.Root, script)), @"\\\r?\n\s*", ""), pattern)
                .Select(match => match.Value.Trim()),
        ];
}
