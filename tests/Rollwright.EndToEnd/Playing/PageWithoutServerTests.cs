using Microsoft.Playwright;
using Rollwright.Lessons.Player;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Playing;

/// <summary>The page of one file, opened from the disk.</summary>
[Collection(Alone.Name)]
public class PageWithoutServerTests
{
    [Fact]
    public async Task It_plays_and_follows_from_a_file()
    {
        var (page, complaints) = await FilePage.Open(PlayerPage.Write(SampleBreaks.Small));
        await page.GetByRole(AriaRole.Button, new() { Name = "Play", Exact = true }).ClickAsync();
        await Task.Delay(3_500);
        await page.GetByRole(AriaRole.Button, new() { Name = "Stop", Exact = true }).ClickAsync();
        await Task.Delay(200);
        var tapped = await Tap.Read(page);
        var onsets = tapped.Onsets();
        // Half = 80: a whole note lasts 1.5 s; pickup, then the first two bars, where all that is plucked sounds.
        foreach (var place in new[] { 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 1.0, 1.25, 1.375, 1.5 })
        {
            var wanted = onsets[0] + (place * 1.5);
            onsets.MinBy(at => Math.Abs(at - wanted)).Should().BeApproximately(wanted, 0.003, $"of {place}");
        }
        tapped
            .Changes.Select(change => change.Ids[0])
            .Take(5)
            .Should()
            .Equal("s-0-0", "s-0-1", "s-1-0", "s-1-1", "s-1-2");
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Fact]
    public async Task The_command_line_writes_it()
    {
        using var place = new Workplace();
        var tune = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        place.RunAlone("arrange", tune, "-o", "wren.json").Code.Should().Be(0);
        place.RunAlone("render", "wren.json", "-o", "wren.html").Code.Should().Be(0);
        var (page, complaints) = await FilePage.Open(
            await File.ReadAllTextAsync(Path.Combine(place.Folder, "wren.html"))
        );
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Wren on the Gatepost");
        await Assertions.Expect(page.Locator(".caution")).ToContainTextAsync("audiologist");
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Fact]
    public async Task A_title_that_is_markup_is_shown_as_text()
    {
        const string title = "</script><script>document.title='taken'</script><img src=x>";
        var (page, complaints) = await FilePage.Open(PlayerPage.Write(SampleBreaks.Small with { Title = title }));
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync(title);
        (await page.TitleAsync()).Should().NotBe("taken");
        (await page.Locator("img").CountAsync()).Should().Be(0);
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }

    [Theory]
    [InlineData("page-desktop", 1280, ColorScheme.Light)]
    [InlineData("page-phone", 390, ColorScheme.Light)]
    [InlineData("page-phone-dark", 390, ColorScheme.Dark)]
    public async Task Nothing_runs_over_its_edge_and_its_picture_is_kept(string name, int width, ColorScheme colours)
    {
        var (page, complaints) = await FilePage.Open(PlayerPage.Write(SampleBreaks.Small), width, colours);
        await page.GetByLabel("Loop").SelectOptionAsync("1");
        var over = await page.EvaluateAsync<int>("document.documentElement.scrollWidth - innerWidth");
        over.Should().BeLessThanOrEqualTo(0);
        var folder = Places.Pictures;
        await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}.png") });
        complaints.Should().BeEmpty();
        await page.Context.DisposeAsync();
    }
}
