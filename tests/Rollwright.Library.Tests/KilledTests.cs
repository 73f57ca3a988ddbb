using System.Diagnostics;
using Microsoft.Data.Sqlite;

namespace Rollwright.Library.Tests;

public class KilledTests
{
    private const int Times = 50;

    [Fact]
    public async Task Killed_fifty_times_in_the_middle_of_edits_every_acknowledged_one_is_there()
    {
        await using var shelf = await Shelf.OpenAsync();
        var tune = Shelf.Tune("Test");
        await shelf.Library.AddAsync([tune]);
        var id = (await shelf.Library.BeginAsync(tune.Id, "Test", new(Guid.NewGuid(), "change 1", "", "{}"))).Id;
        var random = new Random(20260302);
        var acknowledged = 1;
        for (var round = 0; round < Times; round++)
        {
            var last = await EditUntilKilled(shelf.Place.File!, id, random.Next(1, 40));
            acknowledged = Math.Max(acknowledged, last);
            var library = await TuneLibrary.OpenAsync(shelf.Place, TimeProvider.System);
            var numbers = (await library.RevisionsAsync(id)).Select(revision => revision.Number).ToList();
            numbers.Should().Equal(Enumerable.Range(1, numbers.Count));
            numbers.Count.Should().BeGreaterThanOrEqualTo(acknowledged, "what was said to be kept is kept");
            (await library.CurrentAsync(id))!
                .Number.Should()
                .Be(numbers.Count, "the break points at a revision that is there");
        }
        acknowledged.Should().BeGreaterThan(Times, "else nothing was tested");
        Integrity(shelf.Place.File!).Should().Be("ok");
    }

    // SIGKILL so many milliseconds after its first acknowledged change.
    private static async Task<int> EditUntilKilled(string file, Guid id, int milliseconds)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            RedirectStandardOutput = true,
            UseShellExecute = false,
            ArgumentList = { Path.Combine(AppContext.BaseDirectory, "Rollwright.Scribe.dll"), file, $"{id}" },
        };
        using var scribe = Process.Start(start)!;
        var last = 0;
        while (last == 0)
            last = int.Parse((await scribe.StandardOutput.ReadLineAsync())!);
        await Task.Delay(milliseconds);
        scribe.Kill();
        while (await scribe.StandardOutput.ReadLineAsync() is { } line)
        {
            // The last line may have been cut off as it was written.
            if (int.TryParse(line, out var number) && number == last + 1)
                last = number;
        }
        await scribe.WaitForExitAsync();
        return last;
    }

    // SQLite's own check of the whole file.
    private static string Integrity(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA integrity_check";
        return (string)command.ExecuteScalar()!;
    }
}
