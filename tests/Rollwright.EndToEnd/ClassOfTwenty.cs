using System.Collections.Concurrent;
using System.Diagnostics;
using Microsoft.Playwright;
using Rollwright.Arranging.Locks;
using Rollwright.Library;
using Rollwright.Web.Hosting;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>
/// No test but a measurement, run only when it is asked for (bench/README.md): people at pages of one server, each with a tune of
/// 32 bars of their own, who change it now and then. How long a change takes from the key to the new drawing on the page, and how
/// much memory the server's process holds for each of them.
/// </summary>
[Collection(Alone.Name)]
public sealed class ClassOfTwenty(ITestOutputHelper output) : IDisposable
{
    private const int Changes = 15;

    // From the key to the drawing whose break has another name.
    private const string Listen = """
        () => {
          window.took = [];
          const name = () => document.querySelector("a[href^='/made/']")?.getAttribute("href").split("/")[2];
          let began = 0, before = name();
          addEventListener("keydown", (event) => { if (event.key === "r") { began = performance.now(); before = name(); } }, true);
          new MutationObserver(() => {
            if (began === 0 || name() === before) return;
            window.took.push(performance.now() - began);
            began = 0;
          }).observe(document.body, { subtree: true, childList: true, attributes: true });
        }
        """;

    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-class").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Theory(Explicit = true)]
    [InlineData(1)]
    [InlineData(20)]
    public async Task How_long_a_change_takes_and_what_a_person_costs(int people)
    {
        var library = await TuneLibrary.OpenAsync(new(Path.Combine(folder, "library.db"), null), TimeProvider.System);
        await using var workbench = await Workbench.StartAsync(0, library);
        // What is read and compiled once is no person's; this page stays open.
        await using var first = await Arrive(workbench.Address, 0);
        await Work(first.Page, new Random(0));
        var before = Memory();
        var visitors = new List<Visitor>();
        for (var i = 1; i <= people; i++)
            visitors.Add(await Arrive(workbench.Address, i));
        var arranged = Memory();
        await Task.WhenAll(visitors.Select((visitor, i) => Work(visitor.Page, new Random(i + 1))));
        var edited = Memory();
        var took = new List<double>();
        foreach (var visitor in visitors)
            took.AddRange(await visitor.Page.EvaluateAsync<double[]>("() => window.took"));
        foreach (var visitor in visitors)
            await visitor.DisposeAsync();
        took.Sort();
        output.WriteLine(
            $"{people} people, {took.Count} changes: half within {took[took.Count / 2]:0} ms, 95 of 100 within {took[took.Count * 95 / 100]:0} ms; "
                + $"a person's memory {(arranged - before) / people / 1e6:0.0} MB arranged, {(edited - before) / people / 1e6:0.0} MB after {Changes} changes"
        );
    }

    // The server's share, without the browsers: from what a key asks for to the drawing of what came of it, everything that a
    // page asks besides (spots, keeping) under way too.
    [Theory(Explicit = true)]
    [InlineData(1)]
    [InlineData(20)]
    public async Task How_long_a_change_takes_at_the_server(int people)
    {
        var library = await TuneLibrary.OpenAsync(new(Path.Combine(folder, "benches.db"), null), TimeProvider.System);
        var shelf = new Shelf();
        var took = new ConcurrentBag<double>();
        await Task.WhenAll(Enumerable.Range(1, people).Select(Work));
        double[] sorted = [.. took.Order()];
        output.WriteLine(
            $"{people} at the server, {sorted.Length} changes: half within {sorted[sorted.Length / 2]:0} ms, 95 of 100 within {sorted[sorted.Length * 95 / 100]:0} ms"
        );

        async Task Work(int number)
        {
            var random = new Random(number);
            var bench = new Bench(shelf, new(library));
            await bench.Put($"{number}.abc", TuneOf(number));
            for (var i = 0; i < Changes; i++)
            {
                await Task.Delay(random.Next(3_000, 5_000));
                var before = bench.Now;
                var began = Stopwatch.GetTimestamp();
                await bench.Make(Edit.Of(new RestLock(random.Next(before!.Arrangement.Grid.Steps.Length))));
                if (bench.Now is not { } now || now == before)
                    continue;
                now.Drawing.In(BreakView.Phrases).Wide.Svg.Should().NotBeEmpty();
                took.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);
            }
        }
    }

    // Two parts of eight bars, each played twice.
    private static string TuneOf(int number)
    {
        var bars = "|:GABc dedc|BGAF G4|GABc dedc|BAGF G4|e2ef gfed|B2AB G2BA|GABc dedc|BAGF G4:|\n";
        return $"X:1\nT:Tune {number}\nM:2/2\nL:1/8\nK:G\n{bars}{bars.Replace("GABc", "g2fg", StringComparison.Ordinal)}";
    }

    private static async Task<Visitor> Arrive(string address, int number)
    {
        var visitor = await Visitor.Arrive(at: address);
        await visitor.Paste(TuneOf(number));
        await Assertions.Expect(visitor.Page.Locator("h1")).ToHaveTextAsync($"Tune {number}");
        await visitor.Settled();
        await Assertions.Expect(visitor.Page.Locator(".keep-line")).ToHaveTextAsync("Kept.");
        await visitor.Page.EvaluateAsync(Listen);
        return visitor;
    }

    // A change every three to five seconds, at places all over the tune.
    private static async Task Work(IPage page, Random random)
    {
        await page.Locator("#drawing").FocusAsync();
        for (var i = 0; i < Changes; i++)
        {
            await Task.Delay(random.Next(3_000, 5_000));
            for (var steps = random.Next(1, 12); steps > 0; steps--)
                await page.Keyboard.PressAsync("ArrowRight");
            await page.Keyboard.PressAsync("r");
        }
        await Task.Delay(2_000);
    }

    private static long Memory()
    {
        for (var i = 0; i < 3; i++)
        {
            GC.Collect(GC.MaxGeneration, GCCollectionMode.Forced, blocking: true, compacting: true);
            GC.WaitForPendingFinalizers();
        }
        return GC.GetTotalMemory(forceFullCollection: true);
    }
}
