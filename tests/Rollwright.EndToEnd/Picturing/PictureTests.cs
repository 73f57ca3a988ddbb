using Microsoft.Playwright;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Picturing;

/// <summary>Pictures of the page for people to look at, in out/pictures; what is checked is that the page was whole.</summary>
public class PictureTests
{
    [Theory]
    [InlineData("desktop", 1280, 900, ColorScheme.Light)]
    [InlineData("phone-dark", 390, 844, ColorScheme.Dark)]
    public async Task The_page_is_whole_and_its_picture_is_kept(string name, int width, int height, ColorScheme colours)
    {
        await using var visitor = await Visitor.Arrive(width, height, colours);
        await visitor.Ready();
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true }).ClickAsync();
        await visitor.Page.Locator("#drawing .place").First.WaitForAsync();
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Stop", Exact = true }).ClickAsync();
        var folder = Places.Pictures;
        await visitor.Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}.png") });
        await visitor.Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-whole.png"), FullPage = true });
        visitor.Complaints.Should().BeEmpty();
    }

    [Theory]
    [InlineData("asked-desktop-dark", 1280, 900, ColorScheme.Dark)]
    [InlineData("asked-phone", 390, 844, ColorScheme.Light)]
    public async Task The_page_is_whole_with_a_step_chosen_a_spot_open_and_the_advice_read(
        string name,
        int width,
        int height,
        ColorScheme colours
    )
    {
        await using var visitor = await Visitor.Arrive(width, height, colours);
        await visitor.Open("Wren on the Gatepost");
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Compare settings and styles" }).ClickAsync();
        await visitor.Page.Locator(".sentences").WaitForAsync();
        await visitor.OpenASpot();
        await visitor.ChooseFirstStep();
        var first = await visitor.Page.Locator("#step-heading").InnerTextAsync();
        await visitor.Page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(visitor.Page.Locator("#step-heading")).Not.ToHaveTextAsync(first);
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Keep this" }).ClickAsync();
        await Assertions.Expect(visitor.Page.Locator(".kept-here")).ToHaveCountAsync(1);
        await visitor.Page.GetByText("The price of the whole, term by term").ClickAsync();
        await visitor.Page.Locator("main > .card .terms").WaitForAsync();
        var folder = Places.Pictures;
        await visitor.Page.EvaluateAsync("document.querySelector('#drawing').scrollIntoView()");
        await visitor.Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}.png") });
        await visitor.Page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-whole.png"), FullPage = true });
        visitor.Complaints.Should().BeEmpty();
    }
}
