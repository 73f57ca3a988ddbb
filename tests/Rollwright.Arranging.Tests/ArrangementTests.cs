using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Reasons;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Spots;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Playability;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests;

/// <summary>What can be asked of a break once it is made: the answers must be those of solving anew.</summary>
public class ArrangementTests
{
    private static readonly Gen<(Tune Tune, string Style, int Level)> Asked = Gen.Select(
        TuneGenerator.Tunes(4),
        Gen.Int[0, StyleTable.All.Length - 1].Select(i => StyleTable.All[i].Name),
        Gen.Int[1, 5]
    );

    private static Arrangement Make((Tune Tune, string Style, int Level) asked) =>
        Arranger.Arrange(asked.Tune, new() { Style = StyleTable.Find(asked.Style)!, Level = asked.Level });

    [Fact]
    public void The_terms_of_every_step_add_up_to_its_cost() =>
        Asked.Sample(
            asked =>
            {
                var made = Make(asked);
                foreach (var reason in made.Reasons)
                {
                    if (reason.Cost != made.Solver.Best.Costs[reason.Step])
                        return false;
                }
                return made.Terms.Sum(entry => entry.Price) == made.Cost;
            },
            iter: 60
        );

    [Fact]
    public void What_rested_has_the_same_tables_when_it_is_asked_again() =>
        Asked.Sample(
            asked =>
            {
                var first = Make(asked);
                var made = first.With(new RestLock(first.Grid.Steps.Length / 2));
                var (reasons, terms) = (made.Reasons.Select(reason => reason.Cost).ToArray(), made.Terms);
                var spots = made.Spots().Select(spot => (spot.Best[0].Place.Step, spot.Best.Length)).ToArray();
                var futures = Costs(made, step => made.Solver.FutureAt(step));
                var pasts = Costs(made, step => made.Solver.Past.Before(step));
                var awake = made.Solver;
                made.Rest(first);
                made.Rest();
                ReferenceEquals(made.Solver, awake).Should().BeFalse("it was let go of");
                Costs(made, step => made.Solver.FutureAt(step)).Should().Equal(futures);
                Costs(made, step => made.Solver.Past.Before(step)).Should().Equal(pasts);
                made.Reasons.Select(reason => reason.Cost).Should().Equal(reasons);
                made.Terms.Should().Equal(terms);
                made.Spots().Select(spot => (spot.Best[0].Place.Step, spot.Best.Length)).Should().Equal(spots);
                var inUse = made.Solver;
                made.Rest(first, made);
                ReferenceEquals(made.Solver, inUse).Should().BeTrue("what is in use does not rest");
            },
            iter: 25
        );

    // What is impossible costs whatever the way to it costs besides.
    private static int[] Costs(Arrangement made, Func<int, int[]> of) =>
        [.. Enumerable.Range(0, made.Grid.Steps.Length).SelectMany(of).Select(cost => Math.Min(cost, Solver.Barrier))];

    [Fact]
    public void Past_and_future_of_every_node_on_the_path_make_the_whole() =>
        Asked.Sample(
            asked =>
            {
                var made = Make(asked);
                var solver = made.Solver;
                for (var step = 0; step < made.Grid.Steps.Length; step++)
                {
                    if (solver.Best.Licks.Any(lick => lick.Step < step && step <= lick.LastStep))
                        continue;
                    var (shape, state) = solver.Best.Nodes[step];
                    var node = (state * solver.Lattice.Prices(step).WidthBefore) + shape;
                    (solver.Past.Before(step)[node] + solver.FutureAt(step)[node]).Should().Be(made.Cost);
                    solver.Past.Before(step).Zip(solver.FutureAt(step), (a, b) => a + b).Min().Should().Be(made.Cost);
                }
            },
            iter: 40
        );

    [Fact]
    public void A_runner_up_costs_what_the_break_costs_that_must_sound_it() =>
        Gen.Select(Asked, Gen.Double[0, 1])
            .Sample(
                (asked, where) =>
                {
                    var made = Make(asked);
                    var step = (int)(where * (made.Grid.Steps.Length - 1));
                    var reason = made.Reasons[step];
                    if (reason.RunnerUp is not { } other || reason.Lick is not null)
                        return;
                    var forced = made.With(new SoundLock(step, other.Done));
                    // Another finger may sound the same strings cheaper, but never dearer.
                    (forced.Cost - made.Cost)
                        .Should()
                        .BeGreaterThanOrEqualTo(other.Price);
                    other.Price.Should().BeGreaterThanOrEqualTo(0);
                    ReasonFinder
                        .Alternatives(made.Solver, step, SpotFinder.Fits(made.Solver))
                        .Where(way => way.Done.Sound == reason.Done.Sound)
                        .Select(way => way.Price)
                        .Should()
                        .Equal(0);
                },
                iter: 40
            );

    [Fact]
    public void A_lick_in_a_spot_costs_what_solving_around_it_costs() =>
        Gen.Select(TuneGenerator.Tunes(4), Gen.Int[0, 1000])
            .Sample(
                (tune, pick) =>
                {
                    var made = Arranger.Arrange(tune, new() { Level = 4 });
                    var fits = made.Spots(20000).SelectMany(spot => spot.Best).ToArray();
                    var seams = made.Grid.Tree.Seams.Select(seam => made.Grid.FirstOf(seam.To)).ToArray();
                    fits =
                    [
                        .. fits.Where(fit => !seams.Any(step => fit.Place.Step <= step && step <= fit.Place.LastStep)),
                    ];
                    if (fits.Length == 0)
                        return;
                    var fit = fits[pick % fits.Length];
                    var swapped = made.With(new LickLock(fit.Place));
                    (swapped.Cost - made.Cost).Should().Be(fit.Whole);
                    Checker.Check(swapped.Break).Should().BeEmpty();
                    swapped.Solver.Best.Path[fit.Place.Step].Should().Be(fit.Place.Path[0]);
                },
                iter: 60
            );

    [Fact]
    public void Licks_that_are_offered_change_nothing_until_one_is_put_in_and_then_cost_what_was_said()
    {
        var licks = LickBank.BuiltIn.Licks;
        ImmutableArray<Lick> own = [.. licks.Where((_, i) => i % 2 == 0)];
        var rest = new LickIndex([.. licks.Where((_, i) => i % 2 == 1)]);
        var put = 0;
        Gen.Select(TuneGenerator.Tunes(4), Gen.Int[0, 1000])
            .Sample(
                (tune, pick) =>
                {
                    var plain = Arranger.Arrange(tune, new() { Level = 4, Licks = rest });
                    var made = plain.Offering(own);
                    made.Cost.Should().Be(plain.Cost);
                    made.Solver.Best.Path.Should().Equal(plain.Solver.Best.Path);
                    plain.Spots(20000, own.Contains).Should().BeEmpty();
                    var seams = made.Grid.Tree.Seams.Select(seam => made.Grid.FirstOf(seam.To)).ToArray();
                    var fits = made.Spots(20000, own.Contains).SelectMany(spot => spot.Best).ToArray();
                    fits =
                    [
                        .. fits.Where(fit => !seams.Any(step => fit.Place.Step <= step && step <= fit.Place.LastStep)),
                    ];
                    if (fits.Length == 0)
                        return;
                    Interlocked.Increment(ref put);
                    var fit = fits[pick % fits.Length];
                    var kept = new LickLock(fit.Place);
                    var swapped = made.With(kept);
                    (swapped.Cost - made.Cost).Should().Be(fit.Whole);
                    swapped.Has(fit.Place).Should().BeTrue();
                    Checker.Check(swapped.Break).Should().BeEmpty();
                    swapped.Without(kept).Solver.Best.Path.Should().Equal(plain.Solver.Best.Path);
                },
                iter: 40
            );
        put.Should().BeGreaterThan(10, "most tunes have room for a lick");
    }

    [Fact]
    public void Solving_again_around_a_change_gives_what_solving_anew_gives() =>
        Gen.Select(Asked, Gen.Double[0, 1], Gen.Int[0, 3])
            .Sample(
                (asked, where, kind) =>
                {
                    var made = Make(asked);
                    var step = (int)(where * (made.Grid.Steps.Length - 1));
                    Locks.Lock kept = kind switch
                    {
                        0 => new NoSlurLock(step, step),
                        1 => new FretLock(Math.Max(0, step - 3), step, 3),
                        2 => new RestLock(step),
                        _ => new ShapeLock(step, step, [0, null, 0, null]),
                    };
                    // Where play jumps to, the whole tune is settled anew.
                    if (made.Grid.Tree.Seams.Any(seam => Math.Abs(made.Grid.FirstOf(seam.To) - step) <= 3))
                        return;
                    var again = made.With(kept);
                    var overlay = made.Solver.Overlay.Copy();
                    overlay.Add(kept);
                    var anew = Solver.Open(made.Solver.Lattice, overlay);
                    again.Cost.Should().Be(anew.Best.Total);
                    again.Solver.Best.Path.Should().Equal(anew.Best.Path);
                    // What was kept of the costs is as good as new for the next question.
                    for (var s = 0; s < made.Grid.Steps.Length; s++)
                        again.Solver.FutureAt(s).Should().Equal(anew.FutureAt(s));
                    again.Without(kept).Solver.Best.Path.Should().Equal(made.Solver.Best.Path);
                },
                iter: 40
            );

    [Fact]
    public void Locking_the_best_break_changes_nothing() =>
        Asked.Sample(
            asked =>
            {
                var made = Make(asked);
                ImmutableArray<Locks.Lock> all =
                [
                    .. made.Solver.Best.Path.Select((done, step) => new StepLock(step, done)),
                ];
                var locked = made.With(all);
                locked.Cost.Should().Be(made.Cost);
                locked.Solver.Best.Path.Should().Equal(made.Solver.Best.Path);
            },
            iter: 30
        );

    [Fact]
    public void Locks_that_contradict_each_other_are_named_and_the_others_are_not()
    {
        TuneGenerator
            .Tunes(4)
            .Sample(
                tune =>
                {
                    var made = Arranger.Arrange(tune).With(new NoSlurLock(0, 2));
                    var act = () => made.With(new RestLock(5), new NoteLock(5, 3, 0), new FretLock(8, 9, 5));
                    act.Should()
                        .Throw<ArrangeException>()
                        .Which.Message.Should()
                        .MatchRegex(
                            @"^These cannot be kept together: bar \d+, beat [\d.]+: silence and bar \d+, beat [\d.]+: string 3 open; take one of them away\.$"
                        );
                },
                iter: 10
            );
    }

    [Fact]
    public void Every_break_of_every_style_and_level_can_be_played() =>
        Asked.Sample(asked => Checker.Check(Make(asked).Break).Should().BeEmpty(), iter: 80);
}
