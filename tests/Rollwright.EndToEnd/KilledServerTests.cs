using Microsoft.Playwright;
using Rollwright.Library;

namespace Rollwright.EndToEnd;

/// <summary>
/// The real program is killed while someone types changes into its page: what the page showed beside the word 'Kept.' is there
/// when the library is opened again.
/// </summary>
[Collection(Alone.Name)]
public sealed class KilledServerTests(ITestOutputHelper output) : IDisposable
{
    // The page as it was drawn, each time that it says the work is kept: the name of the break that it gives away.
    internal const string Listen = """
        () => {
          window.said = [];
          const look = () => {
            if (document.querySelector(".keep-line")?.textContent.trim() !== "Kept.") return;
            const name = document.querySelector("a[href^='/made/']").getAttribute("href").split("/")[2];
            if (window.said.at(-1) !== name) window.said.push(name);
          };
          new MutationObserver(look).observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
          look();
        }
        """;

    // Nothing that goes back: so all that was kept in the end stands in one line behind what was said.
    private static readonly string[] Keys = ["0", "2", "r", "s", "t", "m", "f"];

    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-served").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public Task Killed_a_few_times_the_server_has_kept_what_the_page_said_was_kept() => KillAgainAndAgain(5, 20260302);

    // Named in bench/README.md.
    [Fact(Explicit = true)]
    public Task Killed_fifty_times_the_server_has_kept_what_the_page_said_was_kept() => KillAgainAndAgain(50, 20260303);

    private async Task KillAgainAndAgain(int times, int seed)
    {
        await Visitor.Browser();
        var place = new LibraryPlace(Path.Combine(folder, "library.db"), null);
        var id = await KeptBreaks.Begin(place);
        var random = new Random(seed);
        var acknowledged = 0;
        for (var round = 0; round < times; round++)
        {
            var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
            var before = KeptBreaks.NameOf((await library.CurrentAsync(id))!);
            var said = await EditUntilKilled(place.File!, before, random);
            acknowledged += said.Length - 1;
            library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
            KeptBreaks.Hold(await library.RevisionsAsync(id), (await library.CurrentAsync(id))!, said);
        }
        output.WriteLine($"{times} times killed, {acknowledged} changes said to be kept, all there");
        acknowledged.Should().BeGreaterThanOrEqualTo(times, "else nothing was tested");
        Integrity.Of(place.File!).Should().Be("ok");
    }

    private static async Task<string[]> EditUntilKilled(string file, string before, Random random)
    {
        using var server = await ServedProgram.Start(file);
        await using var visitor = await Visitor.Arrive(at: server.Address);
        var page = visitor.Page;
        await visitor.Ready();
        await visitor.Settled();
        await visitor.TakeKept("killed");
        await page.Locator($"a[href^='/made/{before}/']").First.WaitForAsync();
        await visitor.Settled();
        await page.EvaluateAsync(Listen);
        await page.Locator("#drawing").FocusAsync();
        using var over = new CancellationTokenSource();
        var typing = Type(page, random.Next(), over.Token);
        // After some changes, however long the machine takes for them, and then at any moment.
        var some = random.Next(2, 5);
        for (var left = 600; left > 0 && await page.EvaluateAsync<int>("() => window.said.length") < some; left--)
            await Task.Delay(50, CancellationToken.None);
        await Task.Delay(random.Next(400), CancellationToken.None);
        server.Kill();
        await over.CancelAsync();
        await typing;
        // What the last message from the server drew is drawn by then.
        return await page.EvaluateAsync<string[]>(
            "() => new Promise(done => setTimeout(() => done(window.said), 100))"
        );
    }

    internal static async Task Type(IPage page, int seed, CancellationToken over)
    {
        var random = new Random(seed);
        while (!over.IsCancellationRequested)
        {
            for (var steps = random.Next(1, 4); steps > 0; steps--)
                await page.Keyboard.PressAsync("ArrowRight");
            await page.Keyboard.PressAsync(Keys[random.Next(Keys.Length)]);
            await Task.Delay(random.Next(60), CancellationToken.None);
        }
    }
}
