using System.Text.RegularExpressions;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;

namespace Rollwright.EndToEnd;

/// <summary>The handbook as it is served, offline, at /help.</summary>
public sealed partial class HandbookTests : IAsyncLifetime
{
    private Workbench? workbench;

    public async ValueTask InitializeAsync() => workbench = await Workbench.StartAsync(0);

    public async ValueTask DisposeAsync()
    {
        if (workbench is not null)
            await workbench.DisposeAsync();
    }

    [Fact]
    public async Task Every_page_is_there_and_its_links_and_pictures_are_there()
    {
        using var client = new HttpClient { BaseAddress = new(workbench!.Address) };
        foreach (var page in Handbook.Pages)
        {
            var address = new Uri(client.BaseAddress, $"help/{page.Name}");
            var html = await client.GetStringAsync(address);
            html.Should().Contain($"<h1>{page.Title}</h1>");
            foreach (Match link in Links().Matches(html))
            {
                using var answer = await client.GetAsync(new Uri(address, link.Groups["to"].Value));
                answer.IsSuccessStatusCode.Should().BeTrue($"{page.Name}: {link.Groups["to"].Value}");
            }
        }
        using var nowhere = await client.GetAsync("help/nothing");
        ((int)nowhere.StatusCode).Should().Be(404);
    }

    [Theory]
    [InlineData(1280)]
    [InlineData(390)]
    public async Task It_is_reached_from_the_workbench_and_can_be_read_by_ear_and_on_a_phone(int width)
    {
        await using var visitor = await Visitor.Arrive(width, 900, at: workbench!.Address);
        await visitor.Page.GotoAsync($"{workbench.Address}/help");
        (await Axe.Findings(visitor.Page)).Should().BeEmpty();
        (
            await visitor.Page.EvaluateAsync<bool>(
                "() => document.documentElement.scrollWidth <= document.documentElement.clientWidth"
            )
        )
            .Should()
            .BeTrue("nothing is wider than the page");
        await visitor.Page.ScreenshotAsync(
            new() { Path = Path.Combine(Places.Pictures, $"handbook-{width}.png"), FullPage = true }
        );
        visitor.Complaints.Should().BeEmpty();
    }

    [GeneratedRegex("<(a href|img src)=\"(?<to>[^\"#]+)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Links();
}
