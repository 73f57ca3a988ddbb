using Microsoft.Data.Sqlite;
using Microsoft.Playwright;
using Rollwright.Library;
using Rollwright.Library.Kept;
using Rollwright.Web.Hosting;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>
/// The disk is full, the library is held by someone, or gone: the page says so, the work stays, and goes to the library by
/// itself, whole and in its order, when it can.
/// </summary>
public sealed class KeepingInNeedTests : IDisposable
{
    private static readonly TimeSpan Soon = TimeSpan.FromMilliseconds(100);

    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-need").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task On_a_full_disk_the_work_waits_and_is_kept_when_there_is_room()
    {
        using var disk = SmallDisk.Mount();
        await Waits(Path.Combine(disk.Folder, "library.db"), disk.Fill, disk.MakeRoom, "the disk is full");
    }

    [Fact]
    public async Task While_another_program_holds_the_library_the_work_waits()
    {
        var file = Path.Combine(folder, "library.db");
        SqliteConnection? other = null;
        SqliteTransaction? held = null;
        await Waits(
            file,
            () =>
            {
                other = new($"Data Source={file};Pooling=False");
                other.Open();
                held = other.BeginTransaction(deferred: false);
            },
            () =>
            {
                held!.Dispose();
                other!.Dispose();
            },
            "another program is writing"
        );
    }

    [Fact]
    public async Task While_the_library_is_gone_the_work_waits()
    {
        var aside = Directory.CreateDirectory(Path.Combine(folder, "aside")).FullName;
        await Waits(
            Path.Combine(folder, "library.db"),
            () => Move(folder, aside),
            () => Move(aside, folder),
            "it cannot be opened"
        );

        static void Move(string from, string to)
        {
            foreach (var part in Directory.GetFiles(from, "library.db*"))
                File.Move(part, Path.Combine(to, Path.GetFileName(part)));
        }
    }

    [Fact]
    public async Task The_page_says_what_is_wrong_goes_on_working_and_says_when_all_is_kept()
    {
        await Visitor.Browser();
        var file = Path.Combine(folder, "library.db");
        var library = await TuneLibrary.OpenAsync(new(file, null), TimeProvider.System);
        await using var workbench = await Workbench.StartAsync(0, library);
        await using var visitor = await Visitor.Arrive(at: workbench.Address);
        var page = visitor.Page;
        await visitor.Ready();
        var line = page.Locator(".keep-line");
        await Assertions.Expect(line).ToHaveTextAsync("Kept.");
        var aside = Path.Combine(folder, "aside.db");
        File.Move(file, aside);
        await page.GetByLabel("Level", new() { Exact = true }).SelectOptionAsync("5");
        await Assertions.Expect(line).ToContainTextAsync("Not kept yet");
        await Assertions.Expect(line).ToContainTextAsync("cannot be opened");
        await Assertions.Expect(line).ToContainTextAsync("Your work is on this page and is tried again");
        // Another change, and another tune: nothing of it is lost.
        await page.GetByLabel("Level", new() { Exact = true }).SelectOptionAsync("1");
        await Assertions.Expect(page.Locator(".turns li").Last).ToContainTextAsync("Level 1");
        await visitor.Open("Wren on the Gatepost");
        await Assertions.Expect(line).ToContainTextAsync("Not kept yet");
        File.Move(aside, file);
        await page.GetByRole(AriaRole.Button, new() { Name = "Try now" }).ClickAsync();
        await Assertions.Expect(line).ToHaveTextAsync("Kept.");
        visitor.Complaints.Should().BeEmpty();

        var kept = await library.BreaksAsync();
        kept.Should().HaveCount(2);
        kept[0].Title.Should().Be("Wren on the Gatepost");
        (await library.RevisionsAsync(kept[1].Id))
            .Select(one => one.Words)
            .Should()
            .HaveCount(3)
            .And.Contain("level 1");
    }

    // One change before the need, two in it, one after.
    private static async Task Waits(string file, Action begin, Action end, string words)
    {
        var place = new LibraryPlace(file, null);
        var library = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        var bench = new Bench(new(), new(library, Soon));
        var said = new List<string>();
        bench.Keeping.Changed += (_, _) =>
        {
            lock (said)
                said.Add($"{bench.Keeping.State}: {bench.Keeping.Why}");
        };
        await bench.Put("need.abc", "X:1\nT:In Need\nM:4/4\nL:1/8\nK:G\nGABc dedc|BGAF G4|\n");
        await Until(() => bench.Keeping.State == KeepState.Kept);

        begin();
        await bench.Wish(bench.Wishes with { Level = 5 });
        await Until(() => Said($"Failed: {file}: {words}"), AllSaid);
        bench.Now!.Wishes.Level.Should().Be(5, "the work is on the page");
        await bench.Wish(bench.Wishes with { Level = 1 });
        end();
        await Until(() => bench.Keeping.State == KeepState.Kept);
        await bench.Wish(bench.Wishes with { Level = 2 });
        await Until(() => bench.Keeping.State == KeepState.Kept);

        var again = await TuneLibrary.OpenAsync(place, TimeProvider.System);
        IReadOnlyList<Revision> kept = await again.RevisionsAsync(bench.Keeping.BreakId!.Value);
        kept.Select(revision => revision.Words).Should().Equal("the tune arranged", "level 5", "level 1", "level 2");
        kept.Select(revision => revision.Parent).Should().Equal(null, 1, 2, 3);
        Integrity.Of(file).Should().Be("ok");

        string AllSaid()
        {
            lock (said)
                return string.Join(" | ", said.Distinct());
        }

        bool Said(string beginning)
        {
            lock (said)
                return said.Exists(line => line.StartsWith(beginning, StringComparison.Ordinal));
        }
    }

    private static async Task Until(Func<bool> isSo, Func<string>? said = null)
    {
        for (var left = 300; !isSo(); left--)
        {
            left.Should().BePositive($"it takes fifteen seconds at most; {said?.Invoke()}");
            await Task.Delay(50);
        }
    }
}
