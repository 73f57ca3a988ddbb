using Microsoft.Playwright;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd;

/// <summary>The break in phrases, and changing it by keys as a person would.</summary>
public class EditingTests
{
    private const string Tune = "Wren on the Gatepost";

    [Theory]
    [InlineData("phrases-desktop", 1280, 900)]
    [InlineData("phrases-phone", 390, 844)]
    public async Task The_break_stands_in_phrases_with_its_form_and_can_be_seen_as_printed(
        string name,
        int width,
        int height
    )
    {
        await using var visitor = await Visitor.Arrive(width, height);
        await visitor.Open(Tune);
        var page = visitor.Page;
        (await page.Locator(".form-strip .cell").CountAsync()).Should().Be(8);
        (await page.Locator("#drawing .join").CountAsync())
            .Should()
            .BeGreaterThan(0, "the tune is joined to its strokes");
        await Assertions.Expect(page.Locator("#drawing .spot").First).ToBeAttachedAsync();
        await page.Locator(".form-strip .cell").Nth(4).ClickAsync();
        await Assertions.Expect(page.Locator(".form-strip .cell").Nth(4)).ToHaveAttributeAsync("aria-current", "true");
        var folder = Places.Pictures;
        await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}.png"), FullPage = true });
        await page.GetByRole(AriaRole.Button, new() { Name = "As printed" }).ClickAsync();
        await Assertions.Expect(page.Locator("#drawing .join")).ToHaveCountAsync(0);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_typed_fret_is_put_on_the_string_of_the_marker_and_undone()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Open(Tune);
        var page = visitor.Page;
        await ToBarOne(visitor);
        var drawing = page.Locator("#drawing");
        await Assertions.Expect(page.Locator("#drawing[aria-valuetext*='bar 1, beat 1:']")).ToHaveCountAsync(1);
        var before = await drawing.GetAttributeAsync("aria-valuetext");
        await page.Keyboard.PressAsync("ArrowUp");
        await page.Keyboard.TypeAsync("0");
        await Assertions.Expect(page.Locator("#drawing[aria-valuetext*=\'string 2, open\']")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("ArrowDown");
        await page.Keyboard.TypeAsync("2");
        await Assertions.Expect(page.Locator("#drawing[aria-valuetext*=\'string 3, fret 2\']")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("Control+z");
        await page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(drawing).ToHaveAttributeAsync("aria-valuetext", before!);
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task What_hands_cannot_do_is_refused_in_words_at_the_step_and_room_can_be_made()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Open(Tune);
        var page = visitor.Page;
        await ToBarOne(visitor);
        await page.Keyboard.TypeAsync("0");
        await Assertions.Expect(page.Locator(".kept-here")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.TypeAsync("14");
        await page.Locator("#step-note [role=alert]").WaitForAsync();
        (await page.Locator("#step-note [role=alert]").InnerTextAsync()).Should().Contain("Hands cannot do this");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_bar_is_copied_into_another()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Open(Tune);
        var page = visitor.Page;
        await visitor.ChooseFirstStep();
        await page.Keyboard.PressAsync("PageDown");
        await page.Keyboard.PressAsync("Control+c");
        await page.Keyboard.PressAsync("PageDown");
        await page.Keyboard.PressAsync("Control+v");
        await Assertions.Expect(page.Locator(".turns [aria-current]")).ToContainTextAsync("8 steps put in");
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Versions_stand_in_a_row_and_one_is_seen_beside_the_break()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Open(Tune);
        var page = visitor.Page;
        await page.GetByRole(AriaRole.Button, new() { Name = "Make them all" }).ClickAsync();
        await page.Locator(".versions li").First.WaitForAsync();
        (await page.Locator(".versions li").CountAsync()).Should().BeGreaterThan(3);
        await page.GetByRole(AriaRole.Button, new() { Name = "Show it: other licks" }).ClickAsync();
        await Assertions.Expect(page.Locator("#summary")).ToContainTextAsync("other licks");
        await page.GetByLabel("What is shown, beside").SelectOptionAsync("0");
        await Assertions.Expect(page.Locator(".beside figure")).ToHaveCountAsync(2);
        (await page.Locator(".beside figure").First.Locator(".differs").CountAsync()).Should().BeGreaterThan(0);
        var folder = Places.Pictures;
        await page.Locator(".beside").ScreenshotAsync(new() { Path = Path.Combine(folder, "beside.png") });
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task A_step_in_a_spot_leads_to_its_licks_which_are_drawn()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Open(Tune);
        var page = visitor.Page;
        await page.Locator("#drawing .wide .spot").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await visitor.ChooseFirstStep();
        await page.Keyboard.PressAsync("PageDown");
        await page.Locator("#step-note a").ClickAsync();
        await page.Locator(".lick-tab svg").First.WaitForAsync();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Letters_that_are_typed_grow_on_a_staff_and_become_a_break()
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Ready();
        var page = visitor.Page;
        await page.GetByText("Type or paste ABC").ClickAsync();
        await page.GetByLabel("The tune as ABC text").FillAsync("GABc dedB|dedB dedB|");
        await Assertions.Expect(page.Locator(".growing .note-head")).Not.ToHaveCountAsync(0);
        await Assertions.Expect(page.GetByText("2 bars, 16 notes in G")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the break" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("My tune");
        visitor.Complaints.Should().BeEmpty();
    }

    // Behind the pickup of two steps.
    private static async Task ToBarOne(Visitor visitor)
    {
        await visitor.ChooseFirstStep();
        await visitor.Page.Keyboard.PressAsync("ArrowRight");
        await visitor.Page.Keyboard.PressAsync("ArrowRight");
    }
}
