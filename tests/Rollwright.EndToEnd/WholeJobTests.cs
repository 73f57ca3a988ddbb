using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Rollwright.Library;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;

namespace Rollwright.EndToEnd;

/// <summary>The whole job as a person does it at the workbench, from a tune to what is taken away, and coming back.</summary>
public sealed partial class WholeJobTests : IAsyncLifetime
{
    private const string Tune = """
        X:1
        T:Sparrow in the Rafters
        C:Composed for this test
        M:2/2
        L:1/8
        K:G
        |:GABG d2Bd|edcB A2GA|BGBd g2fg|edBd A2D2|GABG d2Bd|edcB A2GA|BdgB cAFA|G2B2 G4:|
        |:g2fg edBd|g2gf e2d2|e2dc B2AB|cBAG A2d2|g2fg edBd|g2gf e2d2|BdgB cAFA|G2B2 G4:|
        """;

    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-job").FullName;
    private Workbench workbench = null!;

    public async ValueTask InitializeAsync() =>
        workbench = await Workbench.StartAsync(
            0,
            await TuneLibrary.OpenAsync(LibraryPlace.Of(Path.Combine(folder, "library.db")), TimeProvider.System)
        );

    public async ValueTask DisposeAsync()
    {
        await workbench.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Paste_take_the_advice_swap_licks_edit_undo_vary_compare_hear_take_away_close_and_come_back()
    {
        string left;
        await using (var visitor = await Visitor.Arrive(at: workbench.Address))
        {
            var page = visitor.Page;
            await visitor.Paste(Tune);
            await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Sparrow in the Rafters");
            await visitor.Settled();
            await TakeTheAdvice(visitor);
            await SwapLicks(visitor, 2);
            await EditABar(visitor);
            await VaryAndCompare(visitor);
            await Hear(visitor);
            await TakeAway(visitor);
            await Assertions.Expect(page.Locator(".keep-line")).ToContainTextAsync("Kept");
            left = (await page.Locator(".turns [aria-current]").TextContentAsync())!;
            visitor.Complaints.Should().BeEmpty();
        }
        await using (var visitor = await Visitor.Arrive(at: workbench.Address))
        {
            var page = visitor.Page;
            await visitor.Ready();
            // At once, while the page's own first tune is still being arranged.
            await visitor.TakeKept("Sparrow in the Rafters");
            await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Sparrow in the Rafters");
            await visitor.Settled();
            await Assertions.Expect(page.Locator(".turns [aria-current]")).ToHaveTextAsync(left);
            (await page.Locator("#drawing .wide .kept").CountAsync()).Should().BeGreaterThan(1, "locks come back");
            visitor.Complaints.Should().BeEmpty();
        }
    }

    private static async Task TakeTheAdvice(Visitor visitor)
    {
        await Button(visitor, "Compare settings and styles").ClickAsync();
        var ways = visitor.Page.GetByRole(AriaRole.List, new() { Name = "Ways to play it, the best first" });
        await ways.WaitForAsync();
        var other = ways.GetByRole(AriaRole.Button).First;
        var name = (await other.GetAttributeAsync("aria-label"))!["Take it: ".Length..];
        await other.ClickAsync();
        await Assertions.Expect(visitor.Page.Locator(".ways [aria-current]")).ToContainTextAsync(name);
        await visitor.Settled();
    }

    // Two licks put into spots that do not overlap, each in the break afterwards.
    private static async Task SwapLicks(Visitor visitor, int count)
    {
        var page = visitor.Page;
        await page.GetByLabel("A lick may make the break dearer by").SelectOptionAsync("12000");
        var spots = page.Locator(".spots tbody tr:not(.licks-row)");
        await spots.First.WaitForAsync();
        for (var swapped = 0; swapped < count; swapped++)
        {
            var spot = swapped == 0 ? spots.First : spots.Last;
            await spot.GetByRole(AriaRole.Button).ClickAsync();
            var put = page.Locator(".licks button").Filter(new() { HasText = "Put it in" }).First;
            var name = (await put.GetAttributeAsync("aria-label"))!["Put it in: ".Length..];
            await put.ClickAsync();
            await Assertions.Expect(page.Locator(".turns [aria-current]")).ToContainTextAsync(name);
            await visitor.Settled();
            await spots.First.WaitForAsync();
        }
    }

    private static async Task EditABar(Visitor visitor)
    {
        var page = visitor.Page;
        var turn = page.Locator(".turns [aria-current]");
        await visitor.ChooseFirstStep();
        await page.Keyboard.PressAsync("PageDown");
        await page.Keyboard.PressAsync("PageDown");
        await page.Locator("#drawing[aria-valuetext^='bar 3, beat 1:']").WaitForAsync();
        var before = await page.Locator("#drawing").GetAttributeAsync("aria-valuetext");
        await page.Keyboard.PressAsync("r");
        await Assertions.Expect(page.Locator("#drawing")).Not.ToHaveAttributeAsync("aria-valuetext", before!);
        var edited = await turn.TextContentAsync();
        await page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(page.Locator("#drawing")).ToHaveAttributeAsync("aria-valuetext", before!);
        await page.Keyboard.PressAsync("Control+y");
        await Assertions.Expect(turn).ToHaveTextAsync(edited!);
        await page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(page.Locator("#drawing")).ToHaveAttributeAsync("aria-valuetext", before!);
    }

    private static async Task VaryAndCompare(Visitor visitor)
    {
        var page = visitor.Page;
        await Button(visitor, "Make them all").ClickAsync();
        await page.Locator(".versions li button").First.ClickAsync();
        await Assertions.Expect(page.Locator("#summary")).ToContainTextAsync("of the steps differ from the break");
        await page.GetByLabel("What is shown, beside").SelectOptionAsync("0");
        await Assertions.Expect(page.Locator(".beside figure")).ToHaveCountAsync(2);
        await page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(page.Locator("#summary")).Not.ToContainTextAsync("of the steps differ");
        await visitor.Settled();
    }

    private static async Task Hear(Visitor visitor)
    {
        await visitor.Ready();
        await Button(visitor, "Play").ClickAsync();
        await visitor.Page.Locator("#drawing .place").First.WaitForAsync();
        await Button(visitor, "Stop").ClickAsync();
    }

    private static async Task TakeAway(Visitor visitor)
    {
        var download = await visitor.TakeAway("pdf");
        // poppler, an outside reader, finds the tune on the page.
        var text = Outside.Run("pdftotext", "-layout", await download.PathAsync(), "-").Out;
        Runs().Replace(text, " ").Should().Contain("Sparrow in the Rafters");
    }

    private static ILocator Button(Visitor visitor, string name) =>
        visitor.Page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    [GeneratedRegex(@"\s+", RegexOptions.None, 1000)]
    private static partial Regex Runs();
}
