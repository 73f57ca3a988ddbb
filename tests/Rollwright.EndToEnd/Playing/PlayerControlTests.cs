using Microsoft.Playwright;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>The player's buttons, sliders and keys, as a person at the workbench uses them.</summary>
public class PlayerControlTests
{
    private static async Task<Visitor> Come(int width = 1280, int height = 900)
    {
        var visitor = await Visitor.Arrive(width, height);
        await visitor.Open("Wren on the Gatepost");
        await visitor.Page.Locator(".ledge[data-piece^='Wren on the Gatepost'][data-ready]").WaitForAsync();
        return visitor;
    }

    private static ILocator Ledge(Visitor visitor) => visitor.Page.Locator(".ledge");

    private static ILocator Button(Visitor visitor, string name) =>
        Ledge(visitor).GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    private static Task Settle(Visitor visitor, string state) =>
        Assertions.Expect(Ledge(visitor)).ToHaveAttributeAsync("data-state", state);

    [Fact]
    public async Task Space_plays_and_stops_wherever_no_box_or_button_wants_it()
    {
        await using var visitor = await Come();
        await visitor.Page.Locator("#drawing").FocusAsync();
        await visitor.Page.Keyboard.PressAsync("Space");
        await Settle(visitor, "playing");
        await visitor.Page.Keyboard.PressAsync("Space");
        await Settle(visitor, "still");
        var box = visitor.Page.GetByLabel("Keep something else");
        await box.FillAsync("2/1");
        await box.PressAsync("Space");
        await Assertions.Expect(box).ToHaveValueAsync("2/1 ");
        await Settle(visitor, "still");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Keys_change_tempo_and_loop_while_it_plays()
    {
        await using var visitor = await Come();
        await Button(visitor, "Play").ClickAsync();
        await Settle(visitor, "playing");
        var tempo = visitor.Page.GetByLabel("Tempo");
        var before = int.Parse(await tempo.InputValueAsync());
        await visitor.Page.Keyboard.PressAsync("Alt+ArrowDown");
        await Assertions.Expect(tempo).ToHaveValueAsync($"{before - 5}");
        await visitor.Page.Keyboard.PressAsync("Alt+PageDown");
        await Assertions.Expect(visitor.Page.Locator("#player-loop option:checked")).ToContainTextAsync("phrase 1");
        await Assertions.Expect(visitor.Page.Locator(".wide .looped").First).ToBeVisibleAsync();
        await Settle(visitor, "playing");
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData("0", "30")]
    [InlineData("-5", "30")]
    [InlineData("10000", "200")]
    public async Task A_tempo_beyond_what_the_player_has_becomes_the_nearest_and_says_so(string typed, string kept)
    {
        await using var visitor = await Come();
        var tempo = visitor.Page.GetByLabel("Tempo");
        await tempo.FillAsync(typed);
        await tempo.PressAsync("Enter");
        await Assertions.Expect(tempo).ToHaveValueAsync(kept);
        await Assertions
            .Expect(Ledge(visitor).GetByRole(AriaRole.Alert))
            .ToHaveTextAsync("The tempo is 30 to 200 here.");
        await tempo.FillAsync("90");
        await tempo.PressAsync("Enter");
        await Assertions.Expect(Ledge(visitor).GetByRole(AriaRole.Alert)).ToBeHiddenAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_pull_over_bars_loops_them_and_chooses_no_step()
    {
        await using var visitor = await Come();
        var from = (await visitor.Page.Locator("#s-2-0").BoundingBoxAsync())!;
        var to = (await visitor.Page.Locator("#s-3-2").BoundingBoxAsync())!;
        await visitor.Page.Mouse.MoveAsync(from.X + 3, from.Y + 3);
        await visitor.Page.Mouse.DownAsync();
        await visitor.Page.Mouse.MoveAsync(to.X + 3, to.Y + 3, new() { Steps = 8 });
        await visitor.Page.Mouse.UpAsync();
        await Assertions.Expect(visitor.Page.Locator("#player-loop")).ToHaveValueAsync("bars");
        await Assertions.Expect(visitor.Page.Locator("#player-first")).ToHaveValueAsync("2");
        await Assertions.Expect(visitor.Page.Locator("#player-last")).ToHaveValueAsync("3");
        await Assertions.Expect(visitor.Page.Locator("#step-note")).ToHaveCountAsync(0);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Everything_in_the_player_has_a_name_for_those_who_do_not_see_it()
    {
        await using var visitor = await Come();
        await Ledge(visitor).GetByText("Count-in, band, hands").ClickAsync();
        var names = new[]
        {
            "Bass",
            "Guitar",
            "Chop",
            "Click",
            "All of it",
            "Tune",
            "Short string",
            "Other notes",
            "Place",
        };
        foreach (var name in names)
            await Assertions
                .Expect(Ledge(visitor).GetByRole(AriaRole.Slider, new() { Name = name, Exact = true }))
                .ToBeVisibleAsync();
        foreach (var name in new[] { "Loop", "Count-in", "The banjo plays" })
            await Assertions
                .Expect(Ledge(visitor).GetByRole(AriaRole.Combobox, new() { Name = name, Exact = true }))
                .ToBeVisibleAsync();
        await Assertions.Expect(Ledge(visitor).GetByLabel("Right hand alone")).ToBeVisibleAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_browser_that_cannot_play_says_so_in_one_line()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Page.AddInitScriptAsync("delete window.AudioWorkletNode;");
        await visitor.Page.ReloadAsync();
        await visitor.Ready();
        await Button(visitor, "Play").ClickAsync();
        await Assertions.Expect(Ledge(visitor).GetByRole(AriaRole.Alert)).ToContainTextAsync("lacks AudioWorklet");
        await Assertions.Expect(Button(visitor, "Play")).ToBeVisibleAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData("player-desktop", 1280, 900, ColorScheme.Light)]
    [InlineData("player-phone", 390, 844, ColorScheme.Light)]
    [InlineData("player-phone-dark", 390, 844, ColorScheme.Dark)]
    public async Task The_open_player_is_whole_and_its_picture_is_kept(
        string name,
        int width,
        int height,
        ColorScheme colours
    )
    {
        await using var visitor = await Visitor.Arrive(width, height, colours);
        await visitor.Ready();
        await visitor.Page.GetByLabel("Loop").SelectOptionAsync("1");
        await Button(visitor, "Play").ClickAsync();
        await visitor.Page.Locator("#drawing .place").First.WaitForAsync();
        await Button(visitor, "Stop").ClickAsync();
        await Ledge(visitor).GetByText("Count-in, band, hands").ClickAsync();
        var over = await visitor.Page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth");
        over.Should().BeLessThanOrEqualTo(0);
        var folder = Places.Pictures;
        await visitor.Page.Locator("#drawing").ScrollIntoViewIfNeededAsync();
        await visitor.Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}.png") });
        visitor.Complaints.Should().BeEmpty();
    }
}
