using System.Text.Json;
using Microsoft.Playwright;
using Rollwright.Arranging;
using Rollwright.Arranging.Spots;
using Rollwright.Banjo.Licks;
using Rollwright.EndToEnd.Playing;
using Rollwright.Formats.Abc;
using Rollwright.Library;
using Rollwright.Sound.Browser;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;
using Rollwright.Web.State;
using Rollwright.Web.State.Licks;
using Rollwright.Web.Words;

namespace Rollwright.EndToEnd;

/// <summary>The licks of an open spot: heard before one is taken, filtered, set aside and called back.</summary>
[Collection(Alone.Name)]
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

    private static async Task<Visitor> Come(bool tapped = false, string? at = null)
    {
        var visitor = await Visitor.Arrive(tapped: tapped, at: at);
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

    [Fact]
    public async Task A_lick_that_is_set_aside_stays_away_with_the_library_and_comes_back_when_it_is_called()
    {
        var folder = Directory.CreateTempSubdirectory("rollwright-licks").FullName;
        var (index, spot) = Widest();
        var name = spot.Best.First(fit => !Direct.Value.Has(fit.Place)).Place.Lick.Name;
        try
        {
            var library = await TuneLibrary.OpenAsync(new(Path.Combine(folder, "l.db"), null), TimeProvider.System);
            await using var workbench = await Workbench.StartAsync(0, library);
            await using (var visitor = await Come(at: workbench.Address))
            {
                await Button(Rows(visitor).Nth(index), "Open").ClickAsync();
                await visitor.Page.GetByLabel($"Never show again: {name}").First.ClickAsync();
                await Assertions.Expect(visitor.Page.GetByText("1 lick set aside.")).ToBeVisibleAsync();
                await Assertions.Expect(Rows(visitor).Nth(index)).ToContainTextAsync($"{spot.Count - 1}");
                await Assertions.Expect(Licks(visitor).Filter(new() { HasText = name })).ToHaveCountAsync(0);
                visitor.Complaints.Should().BeEmpty();
            }
            await using (var visitor = await Come(at: workbench.Address))
            {
                await Assertions.Expect(Rows(visitor).Nth(index)).ToContainTextAsync($"{spot.Count - 1}");
                await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Show it again" }).ClickAsync();
                await Assertions.Expect(visitor.Page.GetByText("set aside")).ToHaveCountAsync(0);
                await Button(Rows(visitor).Nth(index), "Open").ClickAsync();
                await Assertions.Expect(Licks(visitor).Filter(new() { HasText = name })).Not.ToHaveCountAsync(0);
                visitor.Complaints.Should().BeEmpty();
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Chosen_notes_become_a_lick_of_ones_own_that_is_offered_at_once_and_can_be_put_in()
    {
        await using var visitor = await Come();
        var page = visitor.Page;
        await visitor.ChooseFirstStep();
        await page.Keyboard.PressAsync("Shift+ArrowRight");
        await Assertions.Expect(page.Locator(".wide .selected")).ToHaveCountAsync(1);
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep these notes as a lick" }).ClickAsync();
        var name = page.GetByLabel("Its name: what the hands do");
        await Assertions.Expect(page.Locator(".own-lick")).ToBeFocusedAsync();
        await page.GetByLabel("Up to and with").SelectOptionAsync("7");
        // What the command line would work out of the same notes; the chord is the tune's.
        var (steps, fault) = LickExtract.Of(Direct.Value.Break, 0, new(0), new(1));
        fault.Should().BeNull();
        var lick = LickProposal.Of("x", Direct.Value.Break.Setting.Tuning, steps, new() { IsInThrees = false }).Lick;
        await Assertions
            .Expect(page.Locator("#own-lick-facts"))
            .ToContainTextAsync(PlaceWords.Capital(LickFacts.Of(lick)));
        var keep = page.GetByRole(AriaRole.Button, new() { Name = "Keep the lick" });
        await name.FillAsync("#");
        await Assertions.Expect(page.Locator("#own-lick-faults")).ToContainTextAsync("cannot be a name");
        await Assertions.Expect(keep).ToBeDisabledAsync();
        await name.FillAsync("gate opener");
        await keep.ClickAsync();
        await Assertions
            .Expect(page.GetByText("“gate opener” is offered in the spots from now on."))
            .ToBeVisibleAsync();

        await page.Locator("button[aria-label^='Open bar 1: ']").ClickAsync();
        var own = Licks(visitor).Filter(new() { HasText = "gate opener" });
        await Assertions.Expect(own).ToContainTextAsync("your own");
        await Button(own, "Put it in").ClickAsync();
        await Assertions.Expect(page.Locator(".kept-list li")).ToContainTextAsync("the lick 'gate opener'");
        await Assertions.Expect(own).ToContainTextAsync("in the break now");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Notes_that_are_no_lick_are_refused_in_words()
    {
        await using var visitor = await Come();
        var page = visitor.Page;
        await visitor.ChooseFirstStep();
        foreach (var _ in Enumerable.Range(0, 8))
            await page.Keyboard.PressAsync("Shift+ArrowRight");
        await Assertions.Expect(page.Locator("#own-lick-faults")).ToContainTextAsync("A lick stays within a bar");
        await Assertions.Expect(page.Locator("#own-lick-faults")).ToContainTextAsync("end it before the bar line");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Keep the lick" })).ToBeDisabledAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData("licks-desktop-dark", 1280, 900, ColorScheme.Dark)]
    [InlineData("licks-phone", 390, 844, ColorScheme.Light)]
    public async Task The_licks_are_whole_and_their_picture_is_kept(
        string name,
        int width,
        int height,
        ColorScheme colours
    )
    {
        await using var visitor = await Visitor.Arrive(width, height, colours);
        await visitor.Open("Wren on the Gatepost");
        var page = visitor.Page;
        await visitor.OpenASpot();
        await page.GetByRole(AriaRole.Button, new() { Name = "Never show again" }).First.ClickAsync();
        await Assertions.Expect(page.GetByText("1 lick set aside.")).ToBeVisibleAsync();
        await visitor.ChooseFirstStep();
        await page.Keyboard.PressAsync("PageDown");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep these notes as a lick" }).ClickAsync();
        await Assertions.Expect(page.Locator(".own-lick")).ToBeFocusedAsync();
        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth"))
            .Should()
            .BeLessThanOrEqualTo(0);
        var folder = Places.Pictures;
        await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}.png") });
        await page.Locator(".about").ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-cards.png") });
        visitor.Complaints.Should().BeEmpty();
    }
}
