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
        var folder = Directory.CreateDirectory(Path.Combine(Places.Root, "out", "pictures")).FullName;
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
        await visitor.ChooseFirstStep();
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("ArrowRight");
        var drawing = page.Locator("#drawing");
        var before = await drawing.GetAttributeAsync("aria-valuetext");
        before.Should().Contain("bar 1, beat 1");
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
        await visitor.ChooseFirstStep();
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("ArrowRight");
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
}
