using System.Diagnostics;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;
using Rollwright.Library;
using Rollwright.Library.Kept;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>
/// A program that edits as a page does, in a process of its own, is killed (SIGKILL) fifty times at moments drawn by a seed: what
/// the page would have said is kept is there afterwards. Through the browser: <see cref="KilledServerTests"/>.
/// </summary>
public sealed class KilledTests : IDisposable
{
    private const string Tune = "X:1\nT:Killed Tune\nM:4/4\nL:1/8\nK:G\nGABc dedc|BGAF G4|g2fg e2d2|BAGF G4|\n";

    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-killed").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    // Two at once, each in a library of its own: for two cores.
    [Fact]
    public async Task Killed_fifty_times_in_the_middle_of_edits_every_acknowledged_one_is_there() =>
        (await Task.WhenAll(KillAgainAndAgain("one", 25, 20260302), KillAgainAndAgain("other", 25, 20260303)))
            .Sum()
            .Should()
            .BeGreaterThan(200, "else nothing was tested");

    private async Task<int> KillAgainAndAgain(string name, int times, int seed)
    {
        var place = new LibraryPlace(Path.Combine(folder, $"{name}.db"), null);
        var id = await Begin(place);
        var random = new Random(seed);
        var acknowledged = 0;
        for (var round = 0; round < times; round++)
        {
            var said = await EditUntilKilled(place.File!, id, random.Next(), random.Next(1, 200));
            acknowledged += said.Count;
            var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
            KeptBreaks.Hold(await library.RevisionsAsync(id), (await library.CurrentAsync(id))!, said);
        }
        // And what is shown comes back on a bench as it was kept.
        var last = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        var bench = new Bench(new(), new(last));
        await bench.Resume(id);
        bench.Now!.Made.Id.Should().Be(KeptBreaks.NameOf((await last.CurrentAsync(id))!));
        KeptBreaks.Integrity(place.File!).Should().Be("ok");
        return acknowledged;
    }

    private static async Task<Guid> Begin(LibraryPlace place)
    {
        var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        var bench = new Bench(new(), new(library));
        await bench.Put("killed.abc", Tune);
        for (var left = 100; bench.Keeping.State != KeepState.Kept && left > 0; left--)
            await Task.Delay(50);
        return bench.Keeping.BreakId!.Value;
    }

    // So many milliseconds after its first acknowledged change. What it said: a name a line, the last perhaps cut off.
    private static async Task<IReadOnlyList<string>> EditUntilKilled(string file, Guid id, int seed, int milliseconds)
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
                $"{seed}",
            },
        };
        using var scribe = Process.Start(start)!;
        var said = new List<string> { (await scribe.StandardOutput.ReadLineAsync())! };
        await Task.Delay(milliseconds);
        scribe.Kill();
        var rest = await scribe.StandardOutput.ReadToEndAsync();
        await scribe.WaitForExitAsync();
        said.AddRange(rest.Split('\n')[..^1]);
        return said;
    }
}

/// <summary>What a library holds against what was said to be kept.</summary>
internal static class KeptBreaks
{
    /// <summary>As <see cref="Made.Id"/> of the break.</summary>
    public static string NameOf(Revision revision) =>
        Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(revision.Break)))[..16];

    /// <summary>All that was said is there, and what is shown is the last that was said, or what was being kept after it.</summary>
    public static void Hold(IReadOnlyList<Revision> revisions, Revision shown, IReadOnlyList<string> said)
    {
        revisions.Select(revision => revision.Number).Should().Equal(Enumerable.Range(1, revisions.Count));
        said.Except(revisions.Select(NameOf)).Should().BeEmpty("what was said to be kept is kept");
        if (said.Count == 0)
            return;
        var last = revisions.Where(revision => NameOf(revision) == said[^1]).ToList();
        last.Should()
            .Contain(
                revision =>
                    revision.Number == shown.Number
                    || revision.Number == shown.Parent
                    || revision.Parent == shown.Number,
                "nothing is shown but the last that was said or the one thing after it"
            );
    }

    /// <summary>SQLite's own check of the whole file.</summary>
    public static string Integrity(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA integrity_check";
        return (string)command.ExecuteScalar()!;
    }
}
