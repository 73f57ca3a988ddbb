using System.Diagnostics;
using Rollwright.Library;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>
/// A program that edits as a page does, in a process of its own, is killed (SIGKILL) at moments drawn by a seed: what
/// the page would have said is kept is there afterwards. Through the browser: <see cref="KilledServerTests"/>.
/// </summary>
public sealed class KilledTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-killed").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public Task Killed_in_the_middle_of_edits_every_acknowledged_one_is_there() => KillInTwo(5);

    // Named in bench/README.md.
    [Fact(Explicit = true)]
    public Task Killed_fifty_times_in_the_middle_of_edits_every_acknowledged_one_is_there() => KillInTwo(25);

    // Two at once, each in a library of its own: for two cores.
    private async Task KillInTwo(int times) =>
        (await Task.WhenAll(KillAgainAndAgain("one", times, 20260302), KillAgainAndAgain("other", times, 20260303)))
            .Sum()
            .Should()
            .BeGreaterThan(8 * times, "else nothing was tested");

    private async Task<int> KillAgainAndAgain(string name, int times, int seed)
    {
        var place = new LibraryPlace(Path.Combine(folder, $"{name}.db"), null);
        var id = await KeptBreaks.Begin(place);
        var random = new Random(seed);
        var acknowledged = 0;
        for (var round = 0; round < times; round++)
        {
            var said = await EditUntilKilled(place.File!, id, random);
            acknowledged += said.Count;
            var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
            KeptBreaks.Hold(await library.RevisionsAsync(id), (await library.CurrentAsync(id))!, said);
        }
        // And what is shown comes back on a bench as it was kept.
        var last = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        var bench = new Bench(new(), new(last));
        await bench.Resume(id);
        bench.Now!.Made.Id.Should().Be(KeptBreaks.NameOf((await last.CurrentAsync(id))!));
        Integrity.Of(place.File!).Should().Be("ok");
        return acknowledged;
    }

    // Some changes after it began, and some milliseconds. What it said: a name a line, the last perhaps cut off.
    private static async Task<IReadOnlyList<string>> EditUntilKilled(string file, Guid id, Random random)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            RedirectStandardOutput = true,
            UseShellExecute = false,
            ArgumentList =
            {
                Path.Combine(AppContext.BaseDirectory, "Rollwright.Scribe.dll"),
                file,
                $"{id}",
                $"{random.Next()}",
            },
        };
        using var scribe = Process.Start(start)!;
        var said = new List<string>();
        for (var left = random.Next(1, 10); left > 0; left--)
            said.Add((await scribe.StandardOutput.ReadLineAsync())!);
        await Task.Delay(random.Next(40));
        scribe.Kill();
        var rest = await scribe.StandardOutput.ReadToEndAsync();
        await scribe.WaitForExitAsync();
        said.AddRange(rest.Split('\n')[..^1]);
        return said;
    }
}
