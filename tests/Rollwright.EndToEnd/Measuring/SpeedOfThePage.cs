using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Measuring;

/// <summary>
/// No tests but measurements, run only when they are asked for (bench/README.md): what a person waits for at the page in a
/// real browser.
/// </summary>
[Collection(Alone.Name)]
public class SpeedOfThePage
{
    // From the key's own time stamp to the second frame after what it changes is there: then it has been painted.
    private const string Watch = """
        () => {
          const drawing = document.querySelector('#drawing');
          window.waits = [];
          let pressed = 0;
          window.addEventListener('keydown', event => { pressed = event.timeStamp; }, true);
          new MutationObserver(() => {
            if (pressed === 0) return;
            const since = pressed;
            pressed = 0;
            requestAnimationFrame(() => requestAnimationFrame(() => window.waits.push(performance.now() - since)));
          }).observe(drawing, { attributes: true, attributeFilter: ['aria-valuetext', 'aria-valuenow'], subtree: false });
        }
        """;

    [Fact(Explicit = true)]
    public async Task How_soon_the_first_page_is_there_on_a_cold_server()
    {
        var browser = await Visitor.Browser();
        var shown = new List<double>();
        var whole = new List<double>();
        for (var round = 0; round < 9; round++)
        {
            var folder = Directory.CreateTempSubdirectory("rollwright-cold-");
            var program = Path.Combine(Places.Root, "src/Rollwright.Cli/bin/Release/net10.0/rollwright");
            var started = Stopwatch.GetTimestamp();
            using var server = Process.Start(
                new ProcessStartInfo(
                    program,
                    ["serve", "--port", "0", "--library", Path.Combine(folder.FullName, "library.db")]
                )
                {
                    RedirectStandardOutput = true,
                    UseShellExecute = false,
                }
            )!;
            try
            {
                string? address = null;
                while (address is null && await server.StandardOutput.ReadLineAsync() is { } said)
                    address = said.Split(' ')
                        .FirstOrDefault(word => word.StartsWith("http://", StringComparison.Ordinal));
                var page = await browser.NewPageAsync();
                await page.GotoAsync(address!.TrimEnd('.', ','), new() { WaitUntil = WaitUntilState.Commit });
                await page.Locator(".sign").WaitForAsync();
                shown.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
                await page.Locator("#drawing .wide svg.engraving").WaitForAsync();
                whole.Add(Stopwatch.GetElapsedTime(started).TotalMilliseconds);
                await page.CloseAsync();
            }
            finally
            {
                server.Kill();
                await server.WaitForExitAsync();
                folder.Delete(true);
            }
        }
        Say("cold start to the page shown", shown);
        Say("cold start to the demo tune's break drawn", whole);
    }

    [Theory(Explicit = true)]
    [InlineData("Wren on the Gatepost")]
    [InlineData("Lantern on the Millrace")]
    public async Task How_soon_a_key_is_answered(string tune)
    {
        await using var visitor = await Visitor.Arrive();
        await visitor.Open(tune);
        var page = visitor.Page;
        await visitor.ChooseFirstStep();
        await page.EvaluateAsync(Watch);
        for (var i = 0; i < 60; i++)
        {
            await page.Keyboard.PressAsync("ArrowRight");
            await Painted(page, i + 1);
        }
        Say($"{tune}: key to repaint, the next step", await Waits(page));
        await page.EvaluateAsync("window.waits = []");
        await page.Keyboard.PressAsync("Home");
        await Painted(page, 1);
        await page.EvaluateAsync("window.waits = []");
        // A note is taken out and put back, all over the tune; each press is shown before the next.
        for (var i = 0; i < 60; i++)
        {
            await page.Keyboard.PressAsync(i % 2 == 0 ? "r" : "Control+z");
            await Painted(page, i + 1);
            if (i % 2 == 1)
                await ToAnotherNote(page);
        }
        var all = await Waits(page);
        Say($"{tune}: a note taken out, solved again and painted", [.. all.Where((_, i) => i % 2 == 0)]);
        Say($"{tune}: undone and painted", [.. all.Where((_, i) => i % 2 == 1)]);
        visitor.Complaints.Should().BeEmpty();
    }

    // Some steps on, to one that is not silent already; these presses are not counted.
    private static async Task ToAnotherNote(IPage page)
    {
        var before = await Waits(page);
        for (var step = 0; step < 3 || (await Said(page)).EndsWith("silence", StringComparison.Ordinal); step++)
        {
            await page.Keyboard.PressAsync("ArrowRight");
            await Task.Delay(100);
        }
        await Task.Delay(200);
        await page.EvaluateAsync("kept => { window.waits = kept; }", before);
    }

    private static async Task<string> Said(IPage page) =>
        await page.Locator("#drawing").GetAttributeAsync("aria-valuetext") ?? "";

    // The page's own policy lets in no script that is text: asked again and again from here.
    private static async Task Painted(IPage page, int count)
    {
        for (var i = 0; i < 500 && (await Waits(page)).Length < count; i++)
            await Task.Delay(10);
        (await Waits(page)).Length.Should().BeGreaterThanOrEqualTo(count, "every key is answered");
    }

    private static Task<double[]> Waits(IPage page) => page.EvaluateAsync<double[]>("window.waits");

    private static void Say(string what, IEnumerable<double> times)
    {
        double[] sorted = [.. times.Order()];
        TestContext.Current.SendDiagnosticMessage(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{what}: median {sorted[sorted.Length / 2]:0} ms, 95 of 100 within {sorted[(int)(0.95 * (sorted.Length - 1))]:0} ms, longest {sorted[^1]:0} ms ({sorted.Length} times)"
            )
        );
    }
}
