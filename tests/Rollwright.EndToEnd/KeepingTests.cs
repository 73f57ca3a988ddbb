using Rollwright.Arranging.Locks;
using Rollwright.Library;
using Rollwright.Web.State;

namespace Rollwright.EndToEnd;

/// <summary>What lies on the bench is kept as it is made, and comes back as it was left.</summary>
public sealed class KeepingTests : IAsyncLifetime
{
    private const string Tune =
        "X:1\nT:Kept Tune\nM:2/2\nL:1/8\nK:G\n|:GABc dedc|BGAF G4|GABc dedc|BAGF G4:|\n|:g2fg e2d2|B2AB G4|g2fg e2d2|BAGF G4:|\n";

    private readonly string folder = Directory.CreateTempSubdirectory("rollwright-keeping").FullName;
    private TuneLibrary library = null!;

    public async ValueTask InitializeAsync() => library = await Open();

    public ValueTask DisposeAsync()
    {
        Directory.Delete(folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task Every_turn_is_kept_and_the_last_comes_back_after_a_restart_with_its_locks()
    {
        var bench = await OnBench();
        await bench.Wish(bench.Wishes with { Level = 4, Style = "mixed" });
        await bench.Make(Edit.Of(new RestLock(3)));
        await bench.Keep(AskedAt.Locks, new NoSlurLock(8, 15));
        await Settled(bench);
        var left = bench.Now!;

        library = await Open();
        var again = new Bench(new(), new(library));
        var kept = (await again.Keeping.ListAsync(10)).Should().ContainSingle().Subject;
        kept.Title.Should().Be("Kept Tune");
        await again.Resume(kept.Id);
        again.Now!.Made.Break.Should().BeEquivalentTo(left.Made.Break);
        again.Now.Made.Id.Should().Be(left.Made.Id, "the same break to the last note");
        again.Now.Arrangement.Locks.Should().Equal(left.Arrangement.Locks);
        again.Wishes.Should().Be(left.Wishes);
        (await library.RevisionsAsync(kept.Id)).Should().HaveCount(4);
    }

    [Fact]
    public async Task A_version_and_a_part_behind_someone_come_back_too()
    {
        foreach (var instead in new Instead[] { new OtherVersion("other-licks"), new BehindSomeone(default) })
        {
            var bench = await OnBench();
            await bench.Wish(bench.Wishes with { Instead = instead });
            await Settled(bench);
            var again = new Bench(new(), new(library));
            await again.Resume((await again.Keeping.ListAsync(1))[0].Id);
            again.Now!.Made.Id.Should().Be(bench.Now!.Made.Id, instead.Words);
        }
    }

    [Fact]
    public async Task Undo_on_the_page_is_undo_in_the_library()
    {
        var bench = await OnBench();
        await bench.Wish(bench.Wishes with { Level = 5 });
        await Settled(bench);
        bench.Go(0);
        await Settled(bench);
        var id = bench.Keeping.BreakId!.Value;
        (await library.CurrentAsync(id))!.Number.Should().Be(1);
        await bench.Wish(bench.Wishes with { Level = 1 });
        await Settled(bench);
        var now = await library.CurrentAsync(id);
        (now!.Number, now.Parent).Should().Be((3, 1));
    }

    [Fact]
    public async Task Undo_goes_on_past_a_restart_to_the_first_turn_and_redo_comes_back()
    {
        var bench = await OnBench();
        List<string> made = [bench.Now!.Made.Id];
        foreach (var level in new[] { 4, 5 })
        {
            await bench.Wish(bench.Wishes with { Level = level });
            made.Add(bench.Now.Made.Id);
        }
        await bench.Make(Edit.Of(new RestLock(3)));
        made.Add(bench.Now.Made.Id);
        await Settled(bench);

        library = await Open();
        var again = new Bench(new(), new(library));
        var id = (await again.Keeping.ListAsync(1))[0].Id;
        await again.Resume(id);
        foreach (var earlier in made.AsEnumerable().Reverse().Skip(1))
        {
            await again.Back();
            again.Now!.Made.Id.Should().Be(earlier);
        }
        await again.Back();
        again.Now!.Made.Id.Should().Be(made[0], "there is nothing before the first");
        await Settled(again);
        (await library.CurrentAsync(id))!.Number.Should().Be(1);
        again.Go(again.Turns!.At + 3);
        again.Now.Made.Id.Should().Be(made[3]);
        await Settled(again);
        (await library.CurrentAsync(id))!.Number.Should().Be(4);
        (await library.RevisionsAsync(id)).Should().HaveCount(4, "going back and on adds nothing");
    }

    [Fact]
    public async Task Two_pages_on_one_break_never_overwrite_each_other()
    {
        var mine = await OnBench();
        await Settled(mine);
        var theirs = new Bench(new(), new(library));
        await theirs.Resume((await theirs.Keeping.ListAsync(1))[0].Id);
        await theirs.Wish(theirs.Wishes with { Level = 5 });
        await Settled(theirs);

        await mine.Wish(mine.Wishes with { Level = 1 });
        await Until(() => mine.Keeping.State == KeepState.Conflict);
        mine.Keeping.Why.Should().Contain("level 5");
        var id = mine.Keeping.BreakId!.Value;
        (await library.RevisionsAsync(id)).Should().HaveCount(2, "nothing was written over");

        mine.Keeping.KeepMine();
        await Settled(mine);
        var now = await library.CurrentAsync(id);
        (now!.Number, now.Parent, Work.Read(now.Wishes)!.Level).Should().Be((3, 2, 1));
    }

    [Fact]
    public async Task A_library_that_is_gone_costs_nothing_and_takes_the_work_when_it_is_back()
    {
        var bench = await OnBench();
        await Settled(bench);
        var (file, aside) = (Path.Combine(folder, "library.db"), Path.Combine(folder, "aside"));
        Directory.CreateDirectory(aside);
        foreach (var part in Directory.GetFiles(folder, "library.db*"))
            File.Move(part, Path.Combine(aside, Path.GetFileName(part)));
        await bench.Wish(bench.Wishes with { Level = 5 });
        await Until(() => bench.Keeping.State == KeepState.Failed);
        bench.Keeping.Why.Should().Contain("cannot be opened");
        bench.Now!.Wishes.Level.Should().Be(5, "the work is on the page");
        foreach (var part in Directory.GetFiles(aside))
            File.Move(part, Path.Combine(folder, Path.GetFileName(part)));
        bench.Keeping.TryAgain();
        await Settled(bench);
        (await library.RevisionsAsync(bench.Keeping.BreakId!.Value)).Should().HaveCount(2);
        File.Exists(file).Should().BeTrue();
    }

    [Fact]
    public async Task What_was_practised_comes_back_with_the_break()
    {
        var bench = await OnBench();
        await Settled(bench);
        var day = new DateOnly(2026, 3, 2);
        var log = new KeptLog(bench, library);
        await log.AddAsync(bench.Now!.Made.Break, new(day, 1, 60, 5, 1));
        await log.AddAsync(bench.Now.Made.Break, new(day, 1, 64, 5, 0));

        var again = new Bench(new(), new(library));
        await again.Resume((await again.Keeping.ListAsync(1))[0].Id);
        var records = await new KeptLog(again, library).ReadAsync(again.Now!.Made.Break);
        records.Should().Equal(new Lessons.Practice.PracticeRecord(day, 1, 64, 10, 1));
    }

    private async Task<Bench> OnBench()
    {
        var bench = new Bench(new(), new(library));
        await bench.Put("kept.abc", Tune);
        return bench;
    }

    private static Task Settled(Bench bench) => Until(() => bench.Keeping.State == KeepState.Kept && !bench.IsMaking);

    private static async Task Until(Func<bool> isSo)
    {
        for (var left = 200; !isSo(); left--)
        {
            left.Should().BePositive("it takes ten seconds at most");
            await Task.Delay(50);
        }
    }

    private Task<TuneLibrary> Open() =>
        TuneLibrary.OpenAsync(new(Path.Combine(folder, "library.db"), null), TimeProvider.System);
}
