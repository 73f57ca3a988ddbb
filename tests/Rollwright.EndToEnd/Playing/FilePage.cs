using Microsoft.Playwright;

namespace Rollwright.EndToEnd.Playing;

/// <summary>A page of one file, opened from the disk without a network.</summary>
internal static class FilePage
{
    /// <summary>Opens it and waits until it plays; complaints of the browser are collected.</summary>
    public static async Task<(IPage Page, List<string> Complaints)> Open(
        string html,
        int width = 1280,
        ColorScheme colours = ColorScheme.Light
    )
    {
        var browser = await Visitor.Browser();
        var context = await browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = width, Height = 844 },
                ColorScheme = colours,
                Offline = true,
            }
        );
        await Tap.Install(context);
        var page = await context.NewPageAsync();
        var complaints = new List<string>();
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
                complaints.Add(message.Text);
        };
        page.PageError += (_, error) => complaints.Add(error);
        var file = Path.Combine(Directory.CreateTempSubdirectory("rollwright-page").FullName, "break.html");
        await File.WriteAllTextAsync(file, html);
        await page.GotoAsync(new Uri(file).AbsoluteUri);
        await page.Locator(".ledge[data-ready]").WaitForAsync();
        return (page, complaints);
    }
}
