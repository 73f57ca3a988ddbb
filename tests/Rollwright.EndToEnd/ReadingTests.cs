using Microsoft.Playwright;
using Rollwright.TestKit;
using Rollwright.Web.Hosting;

namespace Rollwright.EndToEnd;

/// <summary>
/// The page for every reader: by ear, by keyboard, magnified, at rest, on paper. On a server of its own: a page tells what else the
/// same person has under way, which on the server of all tests is what the other tests do.
/// </summary>
public sealed class ReadingTests : IAsyncLifetime
{
    private Workbench? workbench;

    public async ValueTask InitializeAsync() => workbench = await Workbench.StartAsync(0);

    public async ValueTask DisposeAsync()
    {
        if (workbench is not null)
            await workbench.DisposeAsync();
    }

    [Theory]
    [InlineData(1280, 900, ColorScheme.Light)]
    [InlineData(1280, 900, ColorScheme.Dark)]
    [InlineData(390, 844, ColorScheme.Light)]
    public async Task An_outside_judge_finds_nothing_serious(int width, int height, ColorScheme colours)
    {
        await using var visitor = await Visitor.Arrive(width, height, colours, at: workbench!.Address);
        await visitor.Open("Wren on the Gatepost");
        (await Axe.Findings(visitor.Page)).Should().BeEmpty("the page as it comes");
        await visitor.OpenASpot();
        await visitor.ChooseFirstStep();
        await visitor.Page.EvaluateAsync("document.querySelectorAll('details').forEach(one => one.open = true)");
        (await Axe.Findings(visitor.Page)).Should().BeEmpty("with everything open");
        visitor.Complaints.Should().BeEmpty();
    }

    // WCAG 2.2, 1.4.10 Reflow and 1.4.4 Resize text: at 200 % nothing is lost and nothing but music is scrolled sideways. A
    // window of 1280 at 200 % has 640 CSS pixels.
    [Fact]
    public async Task At_twice_the_size_nothing_is_cut_off_and_the_page_does_not_scroll_sideways()
    {
        await using var visitor = await Visitor.Arrive(640, 450, at: workbench!.Address);
        await visitor.Open("Wren on the Gatepost");
        var page = visitor.Page;
        await page.EvaluateAsync("document.querySelectorAll('details').forEach(one => one.open = true)");
        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth - window.innerWidth"))
            .Should()
            .BeLessThanOrEqualTo(0);
        var cut = await page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('button, a, label, h1, h2, p, li, select')]
              .filter(one => one.checkVisibility() && !one.closest('svg') && !one.closest('.plain'))
              .filter(one => one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).overflowX !== 'visible'
                && getComputedStyle(one).overflowX !== 'auto')
              .map(one => `${one.tagName} ${one.textContent.trim().slice(0, 40)}`)
            """
        );
        cut.Should().BeEmpty();
        await page.ScreenshotAsync(
            new() { Path = Path.Combine(Places.Pictures, "twice-the-size.png"), FullPage = true }
        );
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Printed_it_is_the_music_with_its_title_and_nothing_to_press()
    {
        await using var visitor = await Visitor.Arrive(at: workbench!.Address);
        await visitor.Open("Wren on the Gatepost");
        var page = visitor.Page;
        await page.Locator(".on-paper img").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await page.EvaluateAsync(
            "Promise.all([...document.querySelectorAll('.on-paper img')].map(one => one.decode()))"
        );
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        foreach (var control in await page.Locator("button, select, input, textarea, a").AllAsync())
            (await control.IsVisibleAsync()).Should().BeFalse();
        var pages = await page.Locator(".on-paper img").CountAsync();
        var pdf = Path.Combine(Places.Pictures, "workbench-printed.pdf");
        await page.PdfAsync(
            new()
            {
                Path = pdf,
                Format = "A4",
                PreferCSSPageSize = false,
            }
        );
        // poppler reads what the browser printed.
        Outside.Run("pdfinfo", pdf).Out.Should().MatchRegex($@"Pages:\s+{pages}\n");
        Outside.Run("pdftotext", "-layout", pdf, "-").Out.Should().Contain("Wren on the Gatepost");
        visitor.Complaints.Should().BeEmpty();
    }

    // A first-time user with a tune on the clipboard: opens the box, pastes, makes the break, prints. Four actions.
    [Fact]
    public async Task From_the_open_page_to_the_printer_in_four_actions()
    {
        await using var visitor = await Visitor.Arrive(at: workbench!.Address);
        await visitor.Ready();
        var page = visitor.Page;
        await page.EvaluateAsync("() => { window.print = () => { document.body.dataset.printed = 'yes'; }; }");
        await page.GetByText("Type or paste ABC").ClickAsync();
        await page.GetByLabel("The tune as ABC text")
            .FillAsync("X:1\nT:Four Steps\nM:2/2\nL:1/8\nK:G\n|:G2BG d2BG|c2A2 G4:|\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the break" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Four Steps");
        await page.GetByRole(AriaRole.Button, new() { Name = "Print", Exact = true }).ClickAsync();
        await page.Locator("body[data-printed]").WaitForAsync();
        (
            await page.Locator(".on-paper img")
                .EvaluateAllAsync<bool>("all => all.length > 0 && all.every(one => one.naturalWidth > 0)")
        )
            .Should()
            .BeTrue("the pages were there when it printed");
        visitor.Complaints.Should().BeEmpty();
    }

    // CSS Media Queries 5, prefers-reduced-motion: nothing moves that a person did not move.
    [Fact]
    public async Task Who_wants_no_motion_gets_none()
    {
        await using var visitor = await Visitor.Arrive(motion: ReducedMotion.Reduce, at: workbench!.Address);
        await visitor.Open("Wren on the Gatepost");
        var moving = await visitor.Page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('*')].filter(one => {
              const style = getComputedStyle(one);
              return style.animationName !== 'none' || style.transitionDuration.split(',').some(time => parseFloat(time) > 0.001)
                || style.scrollBehavior === 'smooth';
            }).map(one => `${one.tagName}.${one.className}`)
            """
        );
        moving.Should().BeEmpty();
        visitor.Complaints.Should().BeEmpty();
    }

    [Fact]
    public async Task Everything_to_press_is_reached_by_the_tab_key_and_seen_when_reached()
    {
        await using var visitor = await Visitor.Arrive(at: workbench!.Address);
        await visitor.Open("Wren on the Gatepost");
        var page = visitor.Page;
        var all = await page.EvaluateAsync<int>(
            """
            () => [...document.querySelectorAll('a[href], button, select, input, textarea, summary, [tabindex="0"]')]
              .filter(one => !one.disabled && one.checkVisibility({ visibilityProperty: true }) && one.type !== 'file'
                && one.tabIndex >= 0).map((one, n) => one.dataset.reach = n).length
            """
        );
        all.Should().BeGreaterThan(20);
        await page.EvaluateAsync("document.activeElement.blur()");
        var reached = new HashSet<string>(StringComparer.Ordinal);
        var unseen = new List<string>();
        for (var i = 0; i < all + 20; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            var at = await page.EvaluateAsync<string[]>(
                """
                () => {
                  const one = document.activeElement, style = getComputedStyle(one);
                  return [one.dataset.reach ?? '', `${one.tagName} ${one.textContent.trim().slice(0, 30)}`,
                    String(style.outlineStyle !== 'none' || style.boxShadow !== 'none')];
                }
                """
            );
            if (at[0].Length > 0)
                reached.Add(at[0]);
            if (at[0].Length > 0 && at[2] != "true")
                unseen.Add(at[1]);
        }
        unseen.Should().BeEmpty("what has the keyboard is framed");
        reached.Should().HaveCount(all);
        visitor.Complaints.Should().BeEmpty();
    }
}
