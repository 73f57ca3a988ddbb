using Microsoft.Playwright;
using Rollwright.Web.Hosting;

namespace Rollwright.EndToEnd.Picturing;

/// <summary>
/// The handbook's pictures of the workbench: taken here, of a demo tune, and compared with those that are kept. A picture that
/// differs says that the handbook no longer shows what is there.
/// </summary>
public class HandbookPictureTests
{
    private readonly List<string> differences = [];

    [Fact]
    public async Task The_workbench_is_as_the_handbook_shows_it()
    {
        Assert.SkipUnless(
            File.Exists(Visitor.PlainBrowser),
            $"needs {Visitor.PlainBrowser}, which took the pictures: others smooth letters a little differently"
        );
        await using var workbench = await Workbench.StartAsync(0);
        await using var visitor = await Visitor.Arrive(1180, 860, at: workbench.Address);
        var page = visitor.Page;
        await visitor.Open("Wren on the Gatepost");
        await visitor.Ready();
        await Take("bench", page.ScreenshotAsync(Still));

        await visitor.ChooseFirstStep();
        // The second is a fill of the pickup; the third is the tune's.
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("ArrowRight");
        await Assertions.Expect(page.Locator("#step-heading")).ToContainTextAsync("Bar 1, beat 1");
        await Take("why", Card(page, "step-heading"));

        await page.GetByRole(AriaRole.Button, new() { Name = "Compare settings and styles" }).ClickAsync();
        await page.Locator(".sentences").WaitForAsync();
        await Take("settings", Card(page, "ways-heading"));

        await visitor.OpenASpot();
        await Take("spots", Card(page, "spots-heading"));

        await page.GetByRole(AriaRole.Button, new() { Name = "Make them all" }).ClickAsync();
        await Assertions.Expect(page.Locator(".versions li").Nth(3)).ToBeVisibleAsync();
        await visitor.Settled();
        await Take("versions", Card(page, "versions-heading"));
        await Take("practice", Card(page, "practice-heading"));
        await Take("take-away", Card(page, "take-heading"));

        await page.GetByRole(AriaRole.Link, new() { Name = "Teach it" }).ClickAsync();
        await Assertions.Expect(page.Locator(".phrase-words section").First).ToBeVisibleAsync();
        await Take("lesson", page.ScreenshotAsync(Still));

        await page.GetByRole(AriaRole.Link, new() { Name = "Rollwright", Exact = true }).ClickAsync();
        await visitor.CompareDemoTake();
        await Take("beside", Card(page, "beside-heading"));

        visitor.Complaints.Should().BeEmpty();
        string.Join("; ", differences).Should().BeEmpty();
    }

    private static PageScreenshotOptions Still => new() { Animations = ScreenshotAnimations.Disabled };

    private async Task Take(string name, Task<byte[]> picture) =>
        differences.AddRange(
            new[] { KeptPicture.Difference($"handbook/pictures/{name}.png", await picture) }.Where(said =>
                said.Length > 0
            )
        );

    // Without the player, which would lie over it, and without a pointer that lies on something.
    private static async Task<byte[]> Card(IPage page, string heading)
    {
        await page.Mouse.MoveAsync(0, 0);
        await page.EvaluateAsync(
            "() => { const rail = document.querySelector('.rail'); if (rail) rail.style.position = 'static'; }"
        );
        return await page.Locator($"[aria-labelledby='{heading}']")
            .ScreenshotAsync(new() { Animations = ScreenshotAnimations.Disabled });
    }
}
