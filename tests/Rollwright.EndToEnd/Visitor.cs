using Microsoft.Playwright;
using Rollwright.EndToEnd.Playing;
using Rollwright.Web.Hosting;

namespace Rollwright.EndToEnd;

/// <summary>
/// A person at the workbench: the real server on a free port and a real browser, Debian's chromium, which is the outside
/// judge of the page's script and markup. Collects everything that the browser complains about.
/// </summary>
internal sealed class Visitor : IAsyncDisposable
{
    /// <summary>The usual browser: it has no windows of its own to draw; the others keep a core busy with them for every page.</summary>
    public const string PlainBrowser = "/usr/bin/chromium-headless-shell";

    private static readonly string[] Browsers =
    [
        PlainBrowser,
        "/usr/bin/chromium",
        "/usr/bin/chromium-browser",
        "/usr/bin/google-chrome",
    ];

    // One server and one browser for all tests: what one visitor had arranged, the next is given at once.
    private static readonly Lazy<Task<string>> SharedAddress = new(Serve);
    private static readonly Lazy<Task<IBrowser>> SharedBrowser = new(Launch);

    private readonly IBrowserContext context;

    private Visitor(string address, IBrowserContext context, IPage page)
    {
        this.context = context;
        Page = page;
        page.Console += (_, message) =>
        {
            if (message.Type is "error" or "warning")
                Complaints.Add($"{message.Type}: {message.Text} ({message.Location})");
        };
        page.PageError += (_, error) => Complaints.Add($"script: {error}");
        page.RequestFailed += (_, request) =>
        {
            // A sound or a picture is given up half-way when another takes its place; that is how browsers load media.
            if (request.ResourceType is not ("media" or "image"))
                Complaints.Add($"not loaded: {request.Url} {request.Failure}");
        };
        page.Response += (_, response) =>
        {
            if (response.Status >= 400)
                Complaints.Add($"{response.Status}: {response.Url}");
            if (
                !response.Url.StartsWith(address, StringComparison.Ordinal)
                && !response.Url.StartsWith("data:", StringComparison.Ordinal)
                && !response.Url.StartsWith($"blob:{address}", StringComparison.Ordinal)
            )
                Complaints.Add($"loaded from elsewhere: {response.Url}");
        };
    }

    public IPage Page { get; }

    public List<string> Complaints { get; } = [];

    /// <summary>Where the workbench of all tests is.</summary>
    public static Task<string> Address() => SharedAddress.Value;

    /// <summary>The browser; skips the running test with a notice where there is none.</summary>
    public static Task<IBrowser> Browser()
    {
        Assert.SkipUnless(
            Array.Exists(Browsers, File.Exists),
            "needs a chromium browser (see ./test), which is not installed"
        );
        return SharedBrowser.Value;
    }

    /// <summary>Opens the page, that of all tests or one at another address; skips the running test with a notice where there is no browser.</summary>
    public static async Task<Visitor> Arrive(
        int width = 1280,
        int height = 900,
        ColorScheme colours = ColorScheme.Light,
        ReducedMotion motion = ReducedMotion.Reduce,
        bool tapped = false,
        string? at = null,
        string? script = null
    )
    {
        var browser = await Browser();
        var address = at ?? await SharedAddress.Value;
        var context = await browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = width, Height = height },
                ColorScheme = colours,
                ReducedMotion = motion,
                AcceptDownloads = true,
                // The recorder at the loudspeaker is a script that the page itself would not allow.
                BypassCSP = tapped,
            }
        );
        if (tapped)
            await Tap.Install(context);
        // What this visitor's browser has or lacks.
        if (script is not null)
            await context.AddInitScriptAsync(script);
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(60_000);
        var visitor = new Visitor(address, context, page);
        await page.GotoAsync(address);
        return visitor;
    }

    /// <summary>Puts a text on the bench as a person would: opens the box, types, presses the button.</summary>
    public async Task Paste(string abc)
    {
        await Ready();
        await Write(abc);
    }

    /// <summary>The same on a page that may not be ready for it.</summary>
    public async Task Write(string abc)
    {
        var box = Page.GetByLabel("The tune as ABC text");
        if (!await box.IsVisibleAsync())
            await Page.GetByText("Type or paste ABC").ClickAsync();
        await box.FillAsync(abc);
        await Page.GetByRole(AriaRole.Button, new() { Name = "Make the break" }).ClickAsync();
    }

    /// <summary>Takes one of the demo tunes and waits for its break.</summary>
    public async Task Open(string title)
    {
        await Ready();
        await Page.GetByLabel("One of ours").SelectOptionAsync(new SelectOptionValue { Label = title });
        await Assertions.Expect(Page.Locator("h1")).ToHaveTextAsync(title);
        await Settled();
    }

    /// <summary>Searches the library and takes the first of the breaks that were kept.</summary>
    public async Task TakeKept(string words)
    {
        await Page.Locator("#search").FillAsync(words);
        // What is listed before the answer comes is not yet what was searched for.
        await Page.Locator("#search-list .of-break", new() { HasTextString = words }).First.ClickAsync();
    }

    /// <summary>Goes from the bench to where takes are heard, and lays a demo take of what is on the bench beside it.</summary>
    public async Task CompareDemoTake()
    {
        await Ready();
        await Page.GetByRole(AriaRole.Link, new() { Name = "Listen to a take" }).ClickAsync();
        await Page.Locator(".bench[data-listens]").WaitForAsync();
        await Page.GetByRole(AriaRole.Button, new() { Name = "A demo take of" }).ClickAsync();
        await Assertions
            .Expect(Page.Locator("#heard-title"))
            .ToContainTextAsync("demo take", new() { Timeout = 90_000 });
        await Page.GetByRole(AriaRole.Button, new() { Name = "Was this what I played?" }).ClickAsync();
        await Assertions.Expect(Page.Locator("#beside-words p").First).ToBeVisibleAsync(new() { Timeout = 90_000 });
    }

    /// <summary>Lets licks cost so much that there are many spots, and opens the first of them.</summary>
    public async Task OpenASpot()
    {
        await Page.GetByLabel("A lick may make the break dearer by").SelectOptionAsync("6000");
        await Assertions.Expect(Page.Locator(".spots tbody tr").Nth(5)).ToBeAttachedAsync();
        await Page.Locator(".spots button").First.ClickAsync();
        await Page.Locator(".licks li").First.WaitForAsync();
    }

    /// <summary>Waits until nothing is being arranged.</summary>
    public Task Settled() => Assertions.Expect(Page.Locator("main")).ToHaveAttributeAsync("aria-busy", "false");

    /// <summary>Chooses the first step from the keyboard, and waits for its reasons.</summary>
    public async Task ChooseFirstStep()
    {
        await Page.Locator("#drawing").FocusAsync();
        // The script that listens to the drawing's keys may come after the drawing: a person presses again.
        var why = Page.Locator("#step-note .why");
        for (var left = 20; left > 0 && await why.CountAsync() == 0; left--)
        {
            await Page.Keyboard.PressAsync("Home");
            await Task.Delay(250);
        }
        await why.WaitForAsync();
    }

    /// <summary>Waits until the page answers to a hand: its player has loaded what it plays.</summary>
    public Task Ready() => Page.Locator(".ledge[data-ready]").WaitForAsync();

    /// <summary>Takes the break away in a form, as a person does: when the page has come to rest under the pointer.</summary>
    public async Task<IDownload> TakeAway(string ending)
    {
        await Ready();
        await Page.WaitForFunctionAsync(
            """
            () => {
              const height = document.documentElement.scrollHeight, now = performance.now();
              if (window.restedAt?.height !== height) window.restedAt = { height, since: now };
              return now - window.restedAt.since > 300;
            }
            """
        );
        var link = Page.Locator($".forms a[download$='.{ending}']");
        return await Page.RunAndWaitForDownloadAsync(() => link.ClickAsync());
    }

    public ValueTask DisposeAsync() => context.DisposeAsync();

    // A workbench that runs already, of a published build, can be named; otherwise one is started here.
    private static async Task<string> Serve() =>
        Environment.GetEnvironmentVariable("ROLLWRIGHT_ADDRESS") ?? (await Workbench.StartAsync(0)).Address;

    private static async Task<IBrowser> Launch()
    {
        Assertions.SetDefaultExpectTimeout(60_000);
        var playwright = await Playwright.CreateAsync();
        return await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = Array.Find(Browsers, File.Exists),
                Headless = true,
                // Tests run as any user, also as root in a container; sound plays without a gesture or a device.
                // Letters stand where a printer would set them, not at whole points.
                Args =
                [
                    "--no-sandbox",
                    "--autoplay-policy=no-user-gesture-required",
                    "--mute-audio",
                    "--font-render-hinting=none",
                ],
            }
        );
    }
}
