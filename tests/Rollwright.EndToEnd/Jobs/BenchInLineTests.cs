using Rollwright.Arranging.Locks;
using Rollwright.Web.State;
using Rollwright.Web.State.Jobs;

namespace Rollwright.EndToEnd.Jobs;

/// <summary>A bench beside other people's heavy work: small edits never wait for it, whole tunes do, and nothing is lost by it.</summary>
public class BenchInLineTests
{
    private const string Abc =
        "X:1\nT:Wren\nM:2/2\nL:1/8\nK:G\n|:GABc dedc|BGAF G4|GABc dedc|BAGF G4|e2ef gfed|B2AB G2BA|GABc dedc|BAGF G4:|\n";

    [Fact]
    public async Task An_edit_is_made_while_everybody_else_s_work_fills_the_line()
    {
        var line = new JobLine(new(1, 10, 10));
        var bench = new Bench(new(), jobs: new(line, () => "Ada"));
        await bench.Put("wren.abc", Abc);
        var over = Fill(line);
        var before = bench.Now;
        await bench.Make(Edit.Of(new RestLock(3)));
        bench.Now.Should().NotBe(before);
        bench.Refusal.Should().BeNull();
        over.SetResult(1);
    }

    [Fact]
    public async Task A_whole_tune_has_its_turn_and_an_edit_made_meanwhile_goes_before_it()
    {
        var line = new JobLine(new(1, 10, 10));
        var bench = new Bench(new(), jobs: new(line, () => "Ada"));
        await bench.Put("wren.abc", Abc);
        var over = Fill(line);
        var before = bench.Now!;
        var wished = bench.Wish(bench.Wishes with { Level = 5 });
        line.Of("Ada").Should().ContainSingle().Which.Before.Should().Be(1);
        bench.IsMaking.Should().BeTrue();
        await bench.Make(Edit.Of(new RestLock(3)));
        await wished;
        line.Of("Ada").Should().BeEmpty("it is wanted no more");
        (bench.IsMaking, bench.Wishes).Should().Be((false, before.Wishes));
        bench.Now.Should().NotBe(before);
        over.SetResult(1);
    }

    [Fact]
    public async Task What_is_stopped_or_refused_leaves_what_lay_there_and_says_so()
    {
        var line = new JobLine(new(1, 10, 1));
        var bench = new Bench(new(), jobs: new(line, () => "Ada"));
        await bench.Put("wren.abc", Abc);
        var over = Fill(line);
        var before = bench.Now!;
        var wished = bench.Wish(bench.Wishes with { Level = 5 });
        line.Of("Ada").Single().Job.Stop();
        await wished;
        bench.WishProblems.Should().ContainSingle().Which.What.Should().Be("it was stopped");
        (bench.Now, bench.Wishes, bench.IsMaking).Should().Be((before, before.Wishes, false));

        var versions = bench.FindVersions();
        var second = bench.Wish(bench.Wishes with { Level = 4 });
        await second;
        bench.WishProblems.Should().ContainSingle().Which.What.Should().Be("1 jobs of yours wait already");
        bench.Now.Should().Be(before);
        line.Of("Ada").Single().Job.Stop();
        await versions;
        (bench.IsMakingVersions, bench.Versions).Should().Be((false, null));

        over.SetResult(1);
        await bench.Wish(bench.Wishes with { Level = 5 });
        bench.Now!.Wishes.Level.Should().Be(5);
        bench.WishProblems.Should().BeEmpty();
    }

    [Fact]
    public async Task A_tune_beyond_the_bounds_is_refused_in_a_line_and_what_lay_there_stays()
    {
        var bench = new Bench(new());
        await bench.Put("wren.abc", Abc);
        await bench.Put(
            "long.abc",
            Abc.Replace(":|", $"{string.Concat(Enumerable.Repeat("|GABc dedc", 1_000))}:|", StringComparison.Ordinal)
        );
        var problem = bench.WishProblems.Should().ContainSingle().Which;
        problem.What.Should().MatchRegex("arranging: 10[0-9]+ bars are more than the server takes");
        problem.Remedy.Should().Be("cut the tune into parts, or use the command line");
        await bench.Put("large.abc", new string('x', (int)JobKind.Reading.Most + 1));
        bench
            .TextProblems.Should()
            .ContainSingle()
            .Which.What.Should()
            .Contain("characters are more than the server takes");
        bench.FileName.Should().Be("long.abc");
    }

    // A long and a short job of somebody else's hold both places.
    private static TaskCompletionSource<int> Fill(JobLine line)
    {
        var over = new TaskCompletionSource<int>(TaskCreationOptions.RunContinuationsAsynchronously);
        _ = line.Run(JobKind.Listening, "Ben", 1, _ => over.Task);
        _ = line.Run(JobKind.Arranging, "Cleo", 1, _ => over.Task);
        return over;
    }
}
