using Microsoft.Playwright;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd;

/// <summary>Pictures of the page for people to look at, in out/pictures; what is checked is that the page was whole.</summary>
public class PictureTests
{
    [Theory]
    [InlineData("desktop", 1280, 900, ColorScheme.Light)]
    [InlineData("desktop-dark", 1280, 900, ColorScheme.Dark)]
    [InlineData("phone", 390, 844, ColorScheme.Light)]
    [InlineData("phone-dark", 390, 844, ColorScheme.Dark)]
    public async Task The_page_is_whole_and_its_picture_is_kept(string name, int width, int height, ColorScheme colours)
    {
        await using var visitor = await Visitor.Arrive(width, height, colours);
        await visitor.Ready();
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Play" }).ClickAsync();
        await visitor.Page.Locator("#drawing .place").First.WaitForAsync();
        await visitor.Page.GetByRole(AriaRole.Button, new() { Name = "Pause" }).ClickAsync();
        var folder = Directory.CreateDirectory(Path.Combine(Places.Root, "out", "pictures"));
        await visitor.Page.ScreenshotAsync(new() { Path = Path.Combine(folder.FullName, $"{name}.png") });
        await visitor.Page.ScreenshotAsync(
            new() { Path = Path.Combine(folder.FullName, $"{name}-whole.png"), FullPage = true }
        );
        visitor.Complaints.Should().BeEmpty();
    }
}
