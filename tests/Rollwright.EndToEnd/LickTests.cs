using System.Text.Json;
using Microsoft.Playwright;
using Rollwright.Arranging;
using Rollwright.Arranging.Spots;
using Rollwright.Banjo.Licks;
using Rollwright.EndToEnd.Playing;
using Rollwright.Formats.Abc;
using Rollwright.Sound.Browser;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>The licks of an open spot: heard before one is taken, filtered, set aside and called back.</summary>
public class LickTests
{
    // Slow enough that every note is found in the sound.
    private const string Tune = """
        X:1
        T:Slow Gate
        M:2/2
        L:1/8
        Q:1/2=40
        K:G
        |:"G"G2BG d2BG|"C"c2ec "D7"dcBA|"G"G2BG d2BG|"D7"A2F2 "G"G4:|
        """;

    private const int Within = 12000;

    private static readonly Lazy<Arrangement> Direct = new(() => Arranged(3));

    private static Arrangement Arranged(int level) =>
        Arranger.Arrange(AbcReader.Read(Tune, "slow.abc").Tunes[0], new() { Level = level });

    private static ILocator Licks(Visitor visitor) => visitor.Page.Locator(".licks > li");

    private static ILocator Button(ILocator within, string name) =>
        within.GetByRole(AriaRole.Button, new() { Name = name });

    private static async Task<Visitor> Come(bool tapped = false)
    {
        var visitor = await Visitor.Arrive(tapped: tapped);
        await visitor.Paste(Tune);
        await visitor.Page.Locator(".ledge[data-piece^='Slow Gate'][data-ready]").WaitForAsync();
        await visitor.Page.GetByLabel("A lick may make the break dearer by").SelectOptionAsync($"{Within}");
        await Assertions.Expect(Rows(visitor)).ToHaveCountAsync(Direct.Value.Spots(Within).Length);
        return visitor;
    }

    private static ILocator Rows(Visitor visitor) => visitor.Page.Locator(".spots tbody tr:not(.licks-row)");

    // The spot with the most licks in a bar that another leads into.
    private static (int Index, Spot Spot) Widest() =>
        Direct.Value.Spots(Within).Index().Where(spot => spot.Item.Bar > 0).MaxBy(spot => spot.Item.Count);

    [Fact]
    public async Task A_lick_is_heard_in_its_place_and_the_break_lies_there_again_as_it_was()
    {
        var (index, spot) = Widest();
        var fit = spot.Best.First(one => !Direct.Value.Has(one.Place));
        var moments = MomentsOf(LickTrial.Hear(Direct.Value, fit.Place), 40);
        await using var visitor = await Come(tapped: true);
        var ledge = visitor.Page.Locator(".ledge");
        var before = await ledge.GetAttributeAsync("data-ready");
        await visitor.Page.Locator("#player-loop").SelectOptionAsync("all");
        await Button(Rows(visitor).Nth(index), "Open").ClickAsync();
        var lick = Licks(visitor).Filter(new() { HasText = fit.Place.Lick.Name }).First;
        await Button(lick, "Hear it").ClickAsync();
        await Assertions.Expect(ledge).ToHaveAttributeAsync("data-hears", fit.Place.Lick.Name);
        await Assertions.Expect(Button(lick, "Stop")).ToBeVisibleAsync();
        await Assertions.Expect(ledge).ToHaveAttributeAsync("data-state", "still", new() { Timeout = 30_000 });
        await Assertions.Expect(Button(lick, "Hear it")).ToBeVisibleAsync();

        var tapped = await Tap.Read(visitor.Page);
        var onsets = tapped.Onsets();
        moments.Should().HaveCountGreaterThan(8);
        foreach (var seconds in moments)
            (onsets.MinBy(at => Math.Abs(at - onsets[0] - seconds)) - onsets[0])
                .Should()
                .BeApproximately(seconds, 0.003);
        (onsets[^1] - onsets[0]).Should().BeLessThan(moments[^1] + 0.1, "it is heard once");

        // Nothing was taken, and the player has its own break again.
        await Assertions.Expect(visitor.Page.Locator(".kept-list li")).ToHaveCountAsync(0);
        await Assertions.Expect(ledge).ToHaveAttributeAsync("data-ready", before!);
        await Button(ledge, "Play").ClickAsync();
        await visitor.Page.Locator("#drawing .place").First.WaitForAsync();
        await Assertions.Expect(visitor.Page.Locator("[data-part=place]")).ToContainTextAsync("bar 1 of 4");
        visitor.Complaints.Should().BeEmpty();
    }

    private static double[] MomentsOf(Banjo.Breaks.Break played, double perMinute)
    {
        var score = JsonDocument.Parse(PlayerScore.Write(played)).RootElement;
        var second = 60 / (perMinute * score.GetProperty("tempo").GetProperty("unit").GetDouble());
        var at = score
            .GetProperty("parts")[0]
            .GetProperty("strokes")
            .EnumerateArray()
            // What the left hand alone makes is too soft to be found for certain.
            .Where(stroke => stroke.TryGetProperty("right", out _))
            .Select(stroke => stroke.GetProperty("at").GetDouble() * second)
            .Distinct()
            .ToArray();
        return [.. at.Select(seconds => seconds - at[0])];
    }

    [Fact]
    public async Task Stop_and_another_lick_and_the_players_own_buttons_end_what_is_heard()
    {
        var (index, _) = Widest();
        await using var visitor = await Come();
        var ledge = visitor.Page.Locator(".ledge");
        await Button(Rows(visitor).Nth(index), "Open").ClickAsync();
        await Button(Licks(visitor).Nth(1), "Hear it").ClickAsync();
        await Button(Licks(visitor).Nth(1), "Stop").ClickAsync();
        await Assertions.Expect(ledge).ToHaveAttributeAsync("data-state", "still");
        await Button(Licks(visitor).Nth(1), "Hear it").ClickAsync();
        await Button(Licks(visitor).Nth(2), "Hear it").ClickAsync();
        await Assertions.Expect(Button(Licks(visitor).Nth(2), "Stop")).ToBeVisibleAsync();
        await Assertions.Expect(Button(Licks(visitor).Nth(1), "Stop")).ToHaveCountAsync(0);
        await Button(ledge, "Stop").ClickAsync();
        await Assertions.Expect(Button(Licks(visitor).Nth(2), "Hear it")).ToBeVisibleAsync();
        await Button(Licks(visitor).Nth(2), "Hear it").ClickAsync();
        await visitor.Page.Locator("#player-loop").SelectOptionAsync("1");
        await Assertions.Expect(ledge).ToHaveAttributeAsync("data-hears", "");
        await Assertions.Expect(visitor.Page.Locator(".wide .looped").First).ToBeVisibleAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData("#lick-level", "1")]
    [InlineData("#lick-register", "1")]
    [InlineData("#lick-slurs", "1")]
    [InlineData("#lick-slurs", "0")]
    public async Task Licks_are_filtered_before_the_best_are_shown(string list, string value)
    {
        bool Wanted(Lick lick) =>
            list switch
            {
                "#lick-level" => lick.Level <= int.Parse(value),
                "#lick-register" => lick.Register == (Register)int.Parse(value),
                _ => (lick.Slurs > 0) == (value == "1"),
            };
        // At the highest level licks lie all over the neck.
        var made = Arranged(5);
        var all = made.Spots(Within);
        var wanted = made.Spots(Within, Wanted);
        wanted.Sum(spot => spot.Count).Should().BeLessThan(all.Sum(spot => spot.Count));
        await using var visitor = await Come();
        await visitor.Page.GetByLabel("Level", new() { Exact = true }).SelectOptionAsync("5");
        await visitor.Settled();
        await Assertions.Expect(Rows(visitor)).ToHaveCountAsync(all.Length);
        await visitor.Page.Locator(list).SelectOptionAsync(value);
        await Assertions.Expect(Rows(visitor)).ToHaveCountAsync(wanted.Length);
        (await Rows(visitor).Locator("td.number").AllInnerTextsAsync())
            .Should()
            .Equal(wanted.Select(spot => $"{spot.Count}"));
        if (wanted.IsEmpty)
            await Assertions.Expect(visitor.Page.GetByText("No such lick fits at this price")).ToBeVisibleAsync();
        await visitor.Page.Locator(list).SelectOptionAsync("");
        await Assertions.Expect(Rows(visitor)).ToHaveCountAsync(all.Length);
        visitor.Complaints.Should().BeEmpty();
    }
}
