using Microsoft.Playwright;
using Rollwright.Lessons.Practice;
using Rollwright.Library;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>A practice session at the workbench: the panel sets the player, the player tells the panel of its rounds.</summary>
public class PracticeTests
{
    // One bar of four beats at half = 200 lasts 0.6 s at the target, and 1 s where its ladder starts.
    private const string Tune = """
        X:1
        T:Short Gate
        M:2/2
        L:1/8
        Q:1/2=200
        K:G
        |:"G"G2BG d2BG|"C"c2ec "D7"dcBA|"G"G2BG d2BG|"D7"A2F2 "G"G4:|
        """;

    private static ILocator Panel(Visitor visitor) =>
        visitor.Page.GetByRole(AriaRole.Region, new() { Name = "Practice", Exact = true });

    private static ILocator Exercise(Visitor visitor, string words) =>
        Panel(visitor).Locator(".exercises > li").Filter(new() { HasText = words }).First;

    private static ILocator Playing(Visitor visitor, string name) =>
        visitor.Page.Locator(".ledge").GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    private static async Task<Visitor> Come(int width = 1280, int height = 900, ColorScheme colours = ColorScheme.Light)
    {
        var visitor = await Visitor.Arrive(width, height, colours);
        await visitor.Paste(Tune);
        await visitor.Page.Locator(".ledge[data-piece^='Short Gate'][data-ready]").WaitForAsync();
        return visitor;
    }

    private static async Task TakeUp(Visitor visitor, string words)
    {
        await Exercise(visitor, words).GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(visitor.Page.Locator(".drill")).ToBeFocusedAsync();
    }

    [Fact]
    public async Task An_exercise_sets_the_player_and_clean_rounds_lead_up_the_ladder()
    {
        await using var visitor = await Come();
        await TakeUp(visitor, "with both hands");
        await Assertions
            .Expect(visitor.Page.Locator("#player-loop option:checked"))
            .ToContainTextAsync("practice: bar");
        await Assertions.Expect(visitor.Page.Locator("#player-count")).ToHaveValueAsync("1");
        var tempo = visitor.Page.Locator("#player-tempo");
        var start = double.Parse(await visitor.Page.Locator(".rungs [aria-current]").InnerTextAsync());
        await Assertions.Expect(tempo).ToHaveValueAsync($"{start}");
        // Nothing was heard yet: there is nothing to answer for.
        await visitor.Page.Keyboard.PressAsync("c");
        await Assertions.Expect(visitor.Page.Locator("#drill-state")).ToContainTextAsync("0 of 5 clean");
        await visitor.Page.Keyboard.PressAsync("Space");
        for (var round = 1; round <= 5; round++)
        {
            await Assertions.Expect(visitor.Page.Locator("#drill-state")).ToContainTextAsync("Was that clean?");
            await visitor.Page.Keyboard.PressAsync("c");
            if (round < 5)
                await Assertions.Expect(visitor.Page.Locator("#drill-state")).ToContainTextAsync($"{round} of 5 clean");
        }
        // A rung is a twentieth of the target of 200; it comes with the next round.
        await Assertions.Expect(visitor.Page.Locator(".rungs [aria-current]")).ToHaveTextAsync($"{start + 10}");
        await Assertions.Expect(tempo).ToHaveValueAsync($"{start + 10}");
        foreach (var _ in new[] { 1, 2 })
        {
            await Assertions.Expect(visitor.Page.Locator("#drill-state")).ToContainTextAsync("Was that clean?");
            await visitor.Page.Keyboard.PressAsync("m");
            await Assertions.Expect(visitor.Page.Locator("#drill-state")).Not.ToContainTextAsync("Was that clean?");
        }
        await Assertions.Expect(tempo).ToHaveValueAsync($"{start}");
        await Playing(visitor, "Stop").ClickAsync();
        // A bar is no phrase: its passes are kept, a tempo is not.
        await Assertions.Expect(Panel(visitor).Locator("tbody tr")).ToHaveCountAsync(1);
        (await Panel(visitor).Locator("tbody td").AllInnerTextsAsync()).Skip(2).Should().Equal("none yet", "5", "2");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task The_right_hand_alone_and_phrases_in_turn_are_set_and_set_back()
    {
        await using var visitor = await Come();
        var open = visitor.Page.Locator("[data-part=open]");
        await TakeUp(visitor, "The right hand alone");
        await Assertions.Expect(open).ToBeCheckedAsync();
        await TakeUp(visitor, "in turn, one after the other");
        await Assertions.Expect(open).Not.ToBeCheckedAsync();
        await Assertions.Expect(visitor.Page.Locator("#player-loop option:checked")).ToContainTextAsync(" and ");
        var words = await Exercise(visitor, "in turn").InnerTextAsync();
        await visitor.Page.Keyboard.PressAsync("Space");
        // The first round is the first phrase's, the second the other's: each answer is kept where it belongs.
        foreach (var rows in new[] { 1, 2 })
        {
            await Assertions.Expect(visitor.Page.Locator("#drill-state")).ToContainTextAsync("Was that clean?");
            await visitor.Page.Keyboard.PressAsync("c");
            await Assertions.Expect(Panel(visitor).Locator("tbody tr")).ToHaveCountAsync(rows);
        }
        await Playing(visitor, "Stop").ClickAsync();
        foreach (var row in await Panel(visitor).Locator("tbody tr td:nth-child(2)").AllInnerTextsAsync())
            words.ToLowerInvariant().Should().Contain($"phrase {row}");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Another_tune_has_a_plan_of_its_own_and_the_first_finds_its_own_again()
    {
        await using var visitor = await Come();
        await TakeUp(visitor, "once more, slowly");
        await visitor.Page.Keyboard.PressAsync("Space");
        await Assertions.Expect(visitor.Page.Locator("#drill-state")).ToContainTextAsync("Was that clean?");
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "A mistake", Exact = true }).ClickAsync();
        await Assertions.Expect(Panel(visitor).Locator("tbody tr")).ToHaveCountAsync(1);
        await Playing(visitor, "Stop").ClickAsync();
        await visitor.Open("Wren on the Gatepost");
        await Assertions.Expect(Panel(visitor).Locator("tbody tr")).ToHaveCountAsync(0);
        await Assertions.Expect(visitor.Page.Locator(".drill")).ToHaveCountAsync(0);
        await Assertions.Expect(visitor.Page.Locator("#player-loop option[value=given]")).ToHaveCountAsync(0);
        await visitor.Paste(Tune);
        await Assertions.Expect(Panel(visitor).Locator("tbody tr")).ToHaveCountAsync(1);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task On_the_day_after_phrases_return_from_the_library_and_the_band_comes_in_and_goes_again()
    {
        var folder = Directory.CreateTempSubdirectory("rollwright-practice").FullName;
        var library = await TuneLibrary.OpenAsync(new(Path.Combine(folder, "library.db"), null), TimeProvider.System);
        await using (var workbench = await Workbench.StartAsync(0, library))
        {
            var bench = new Bench(new(), new(library));
            await bench.Put("gate.abc", Tune);
            var (made, log) = (bench.Now!.Made, new KeptLog(bench, library));
            for (var left = 200; bench.Keeping.BreakId is null && left > 0; left--)
                await Task.Delay(50);
            var yesterday = DateOnly.FromDateTime(DateTime.Now).AddDays(-1);
            foreach (var work in PhraseWork.Of(made.Break, 200, PracticeHabits.Usual))
                await log.AddAsync(made.Break, new(yesterday, work.Phrase.Number, 138, 10, 0));

            await using var visitor = await Visitor.Arrive(at: workbench.Address);
            await visitor.Ready();
            // The demo tune that the page begins with is kept too, and may come first.
            await visitor.TakeKept("Short Gate");
            await visitor.Page.Locator(".ledge[data-piece^='Short Gate'][data-ready]").WaitForAsync();
            await Assertions.Expect(Panel(visitor).Locator("tbody tr")).ToHaveCountAsync(2);
            var (bass, click) = (visitor.Page.Locator("[data-level=bass]"), visitor.Page.Locator("[data-level=click]"));
            var trade = visitor.Page.Locator("#player-trade");
            await TakeUp(visitor, "with the band");
            await Assertions.Expect(bass).ToHaveValueAsync("80");
            await Assertions.Expect(click).ToHaveValueAsync("0");
            await Assertions.Expect(trade).ToHaveValueAsync("2 bars");
            // One rung of ten below where it was left the day before.
            await Assertions.Expect(visitor.Page.Locator("#player-tempo")).ToHaveValueAsync("128");
            await TakeUp(visitor, "again, from");
            await Assertions.Expect(bass).ToHaveValueAsync("0");
            await Assertions.Expect(trade).ToHaveValueAsync("");
            visitor.Complaints.Should().BeEmpty();
        }
        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("practice-desktop", 1280, 900, ColorScheme.Light)]
    [InlineData("practice-phone-dark", 390, 844, ColorScheme.Dark)]
    public async Task The_panel_is_whole_and_its_picture_is_kept(
        string name,
        int width,
        int height,
        ColorScheme colours
    )
    {
        await using var visitor = await Come(width, height, colours);
        await TakeUp(visitor, "Phrase 1 (bars 1–2), from");
        await visitor.Page.Keyboard.PressAsync("Space");
        for (var round = 1; round <= 5; round++)
        {
            await Assertions.Expect(visitor.Page.Locator("#drill-state")).ToContainTextAsync("Was that clean?");
            await visitor.Page.Keyboard.PressAsync("c");
            await Assertions.Expect(Panel(visitor).Locator("tbody td:nth-child(4)")).ToHaveTextAsync($"{round}");
        }
        var folder = Places.Pictures;
        await visitor.Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-under-way.png") });
        await Playing(visitor, "Stop").ClickAsync();
        await Panel(visitor).GetByText("What is hard, the hardest first").ClickAsync();
        await Panel(visitor).GetByText("The days to come, if all goes well").ClickAsync();
        var over = await visitor.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth");
        over.Should().BeLessThanOrEqualTo(0);
        await visitor.Page.EvaluateAsync("document.querySelector('.rail').style.position = 'static'");
        await Panel(visitor).ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}.png") });
        visitor.Complaints.Should().BeEmpty();
    }
}
