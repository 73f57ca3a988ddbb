using System.Diagnostics;
using System.Globalization;
using Rollwright.Class;
using Rollwright.Class.People;
using Rollwright.Class.Tests;
using Rollwright.Library;
using Rollwright.Library.Tests;
using Rollwright.Web.Hosting;
using Rollwright.Web.Hosting.Sharing;

namespace Rollwright.EndToEnd.Soak;

/// <summary>
/// A class at work: people on one server with a PostgreSQL database, each at a page of their own over the real line, who change their
/// breaks as people do. What a page said was kept is there in the end; a person's memory is bounded, and given back when they leave.
/// <c>bench/soak.sh</c> goes on as long as it is asked to, and tells how long changes take.
/// </summary>
[Collection(Alone.Name)]
public sealed class ClassSoakTests(ITestOutputHelper output)
{
    /// <summary>A person's share of the server's memory, bytes: the aim of bench/README.md.</summary>
    private const long MostEach = 20_000_000;

    /// <summary>What may stay of somebody who has left: the last few breaks on their shelf.</summary>
    private const long MostLeft = 2_000_000;

    private const string Password = "wren on the gatepost";

    /// <summary>About a minute at the pace of people; fewer changes, and some have made none that was taken.</summary>
    [Fact]
    public Task Thirty_people_change_their_breaks_and_nothing_is_lost_or_left_behind() =>
        Work(30, changes: 15, null, "");

    // Named in bench/README.md.
    [Fact(Explicit = true)]
    public Task For_as_long_as_asked() =>
        Work(
            Setting("ROLLWRIGHT_SOAK_PEOPLE", 30),
            int.MaxValue,
            TimeSpan.FromMinutes(Setting("ROLLWRIGHT_SOAK_MINUTES", 60)),
            Environment.GetEnvironmentVariable("ROLLWRIGHT_SOAK_IMPORT") ?? ""
        );

    private async Task Work(int people, int changes, TimeSpan? time, string import)
    {
        var database = await Server.CreateDatabase();
        try
        {
            // Pooled, as a class has it.
            var place = database.Replace("Pooling=false", "Pooling=true", StringComparison.Ordinal);
            var library = await TuneLibrary.OpenAsync(new(null, place), TimeProvider.System);
            var room = await Classroom.OpenAsync(library, TimeProvider.System);
            await using var workbench = await Workbench.StartAsync(
                0,
                library,
                new ClassServing(room) { TriesPerMinute = 1_000 }
            );
            // What is read and compiled once is nobody's.
            await using (var first = await Enter(workbench, room, "First"))
                await Edit(first, 1, changes: 5, null);
            var before = Memory();

            var present = new List<PersonAtWork>();
            for (var i = 1; i <= people; i++)
                present.Add(await Enter(workbench, room, $"Person {i}"));
            using var watched = new CancellationTokenSource();
            var watching = time is null ? Task.CompletedTask : Watch(before, people, watched.Token);
            var importing =
                time is { } whole && import.Length > 0
                    ? Import(workbench, room, place, import, whole / 3)
                    : Task.FromResult<List<(long, long)>>([]);
            var until = time is { } asked
                ? Stopwatch.GetTimestamp() + (long)(asked.TotalSeconds * Stopwatch.Frequency)
                : (long?)null;
            await Task.WhenAll(present.Select((person, i) => Edit(person, i + 1, changes, until)));
            await watched.CancelAsync();
            await watching;
            foreach (var person in present)
            {
                await person.Settle();
                await Hold(library, room, person);
            }
            var there = (Memory() - before) / people;
            there.Should().BeLessThan(MostEach, "a person's share is bounded");
            Tell(present, await importing);

            foreach (var person in present)
                await person.DisposeAsync();
            var left = long.MaxValue;
            for (var tries = 60; tries > 0 && left > MostLeft; tries--)
            {
                await Task.Delay(1_000);
                left = (Memory() - before) / people;
            }
            output.WriteLine(
                $"a person's memory: {there / 1e6:0.0} MB at work, {left / 1e6:0.0} MB when they have left"
            );
            left.Should().BeLessThan(MostLeft, "what belonged to a page goes with it");
        }
        finally
        {
            Npgsql.NpgsqlConnection.ClearAllPools();
            await Server.Drop(database);
        }
    }

    private static async Task<PersonAtWork> Enter(Workbench workbench, Classroom room, string name)
    {
        using var guest = await SignIn(workbench, room, name);
        var person = new PersonAtWork(name);
        await person.Come(new(new(workbench.Address), "/"), guest.Cookies);
        return person;
    }

    private static async Task<Guest> SignIn(Workbench workbench, Classroom room, string name)
    {
        var made = await room.InviteAsync(null, name, Role.Pupil);
        var guest = new Guest(workbench.Address);
        var door = $"/invitation/{made.Secret}";
        using (await guest.Post(door, door, ("password", Password), ("again", Password))) { }
        return guest;
    }

    // A change every three to five seconds.
    private static async Task Edit(PersonAtWork person, int seed, int changes, long? until)
    {
        var random = new Random(seed);
        for (var i = 0; i < changes && (until is null || Stopwatch.GetTimestamp() < until); i++)
        {
            await Task.Delay(random.Next(3_000, 5_000));
            await person.Change(random);
        }
        person.Changes.Should().NotBeEmpty("else nothing was tested");
    }

    private static async Task Hold(TuneLibrary library, Classroom room, PersonAtWork person)
    {
        var theirs = library.For((await room.FindMemberAsync(person.Name))!.Id);
        var kept = (await theirs.BreaksAsync()).Should().ContainSingle().Subject;
        var current = (await theirs.CurrentAsync(kept.Id))!;
        KeptBreaks.NameOf(current).Should().Be(person.Shown, "the page said that it is kept");
        KeptBreaks.Hold(await theirs.RevisionsAsync(kept.Id), current, person.Said);
    }

    // Grows while people's turns grow, of which the last hundred stay; not after.
    private async Task Watch(long before, int people, CancellationToken stop)
    {
        try
        {
            for (var minute = 5; ; minute += 5)
            {
                await Task.Delay(TimeSpan.FromMinutes(5), stop);
                output.WriteLine(
                    $"{minute} minutes: {(Memory() - before) / people / 1e6:0.0} MB a person, {Environment.WorkingSet / 1e6:0} MB the process"
                );
            }
        }
        catch (OperationCanceledException)
        {
            // It is over.
        }
    }

    // Other programs on the same machine and database, one after the other, as teachers would start them: in the second third of
    // the time, so that there is something to hold it against before and after.
    private static async Task<List<(long Began, long Ended)>> Import(
        Workbench workbench,
        Classroom room,
        string place,
        string folder,
        TimeSpan third
    )
    {
        var imports = new List<(long, long)>();
        await Task.Delay(third);
        var first = Stopwatch.GetTimestamp();
        while (imports.Count == 0 || Stopwatch.GetElapsedTime(first) < third)
        {
            var name = $"Importer {imports.Count + 1}";
            using (await SignIn(workbench, room, name)) { }
            var began = Stopwatch.GetTimestamp();
            await Import(place, folder, name);
            imports.Add((began, Stopwatch.GetTimestamp()));
        }
        return imports;
    }

    private static async Task Import(string place, string folder, string member)
    {
        var start = new ProcessStartInfo("dotnet") { UseShellExecute = false, RedirectStandardError = true };
        start.Environment["ROLLWRIGHT_LIBRARY"] = place;
        foreach (
            var argument in (string[])
                [
                    Path.Combine(AppContext.BaseDirectory, "rollwright.dll"),
                    "library",
                    "import",
                    folder,
                    "--member",
                    member,
                ]
        )
            start.ArgumentList.Add(argument);
        using var process = Process.Start(start)!;
        var words = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        process.ExitCode.Should().Be(0, words);
    }

    private void Tell(List<PersonAtWork> people, List<(long Began, long Ended)> imports)
    {
        var all = people.SelectMany(person => person.Changes).ToList();
        Tell("changes", all);
        if (imports.Count == 0)
            return;
        var seconds = imports
            .Select(import => Stopwatch.GetElapsedTime(import.Began, import.Ended).TotalSeconds)
            .Order();
        output.WriteLine($"{imports.Count} imports, {seconds.ElementAt(imports.Count / 2):0.0} s each (median)");
        Tell("changes before them", [.. all.Where(change => change.At < imports[0].Began)]);
        Tell(
            "changes beside them",
            [.. all.Where(change => imports.Exists(import => import.Began <= change.At && change.At <= import.Ended))]
        );
        Tell("changes after them", [.. all.Where(change => change.At > imports[^1].Ended)]);
    }

    private void Tell(string what, List<(long At, double Took)> changes)
    {
        double[] took = [.. changes.Select(change => change.Took).Order()];
        output.WriteLine(
            took.Length == 0
                ? $"no {what}"
                : $"{took.Length} {what}: half within {took[took.Length / 2]:0} ms, 95 of 100 within {took[took.Length * 95 / 100]:0} ms, the longest {took[^1]:0} ms"
        );
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

    private static int Setting(string name, int usual) =>
        int.TryParse(Environment.GetEnvironmentVariable(name), CultureInfo.InvariantCulture, out var value)
            ? value
            : usual;
}
