using System.Collections.Immutable;
using CsCheck;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Solving;

public class SolverTests
{
    // Few shapes and steps, so that every path can be tried; slurs included, licks too long to fit.
    private static readonly LeftBounds Small = new(7, 2, 5, true, 0);

    public static TheoryData<string> Styles => [.. StyleTable.All.Select(style => style.Name)];

    [Theory]
    [MemberData(nameof(Styles))]
    public void The_path_costs_what_the_cheapest_of_all_paths_costs(string style) =>
        TuneGenerator
            .Tunes(2)
            .Select(Shorten)
            .Sample(
                tune =>
                {
                    var lattice = LatticeOf(tune, StyleTable.Find(style)!);
                    var solution = Solver.Solve(lattice, new(lattice.Grid.Steps.Length));
                    return solution.Total == new EveryPath(lattice).Cheapest();
                },
                iter: 30
            );

    [Fact]
    public void A_locked_step_stays_and_the_rest_is_solved_around_it() =>
        TuneGenerator
            .Tunes(2)
            .Sample(
                tune =>
                {
                    var lattice = LatticeOf(tune, StyleTable.Roll);
                    var free = Solver.Solve(lattice, new(lattice.Grid.Steps.Length));
                    var overlay = new Overlay(lattice.Grid.Steps.Length);
                    overlay.Add(new RestLock(1));
                    var locked = Solver.Solve(lattice, overlay);
                    return locked.Path[1].Event.IsSilent
                        && locked.Path[1].SlurString == 0
                        && locked.Total >= free.Total;
                },
                iter: 40
            );

    private static StepLattice LatticeOf(Tune tune, Style style)
    {
        var setting = new Setting(TuningTable.OpenG, 0, tune.Key, -12);
        return StepLattice.Build(StepGrid.Lay(tune, setting, style.FollowsTune), setting, Small, style);
    }

    // A bar of three steps: the first notes of a bar, in a bar just as long.
    private static Tune Shorten(Tune tune)
    {
        var bar = tune.Bars[0];
        var length = bar.Time.Step * 3;
        var notes = bar.Notes.Where(note => note.At + note.Length <= length);
        return tune with
        {
            Bars = [bar with { Length = length, Notes = [.. notes], Marks = Music.Forms.BarMarks.None }],
        };
    }

    /// <summary>
    /// Another way to the same answer: walks every path, and adds up the prices as their classes state them. The hand is
    /// remembered as what it did and when, not as the solver's states.
    /// </summary>
    private sealed class EveryPath(StepLattice lattice)
    {
        private sealed record Done(Fraction At, int Manner, RightEvent Event, int Slurred, int SlurFret);

        public int Cheapest() =>
            Enumerable.Range(0, lattice.Style.Manners.Length).Min(manner => From(0, HandShape.Open, manner, []));

        private int From(int step, HandShape held, int manner, ImmutableList<Done> before)
        {
            if (step == lattice.Grid.Steps.Length)
                return 0;
            var place = lattice.Grid.Steps[step];
            var next = step + 1 < lattice.Grid.Steps.Length ? lattice.Grid.Steps[step + 1] : null;
            var hand = HandBefore(place, before, manner);
            var best = int.MaxValue / 2;
            foreach (var shape in lattice.Shapes[step])
            {
                var move = lattice.Style.Moves.Of(held, shape);
                for (var e = 0; e < RightEvent.All.Length && move < MovePrice.Impossible; e++)
                {
                    var happening = RightEvent.All[e];
                    var isFast =
                        step > 0
                        && place.At - lattice.Grid.Steps[step - 1].At < lattice.Grid.StepOf(0) * new Fraction(1, 2);
                    if (
                        (happening.FingerMask & hand.Tired) != 0
                        || (place.IsBetween && !happening.IsSilent && (isFast || happening.IsPinch))
                    )
                        continue;
                    var sum = new Sum();
                    lattice
                        .Style.Manners[manner]
                        .Right.Of(ref sum, hand, happening, false, new(place.Main, false, false, place.IsAfterTheEnd));
                    best = Math.Min(
                        best,
                        move
                            + sum.Total
                            + Notes(place, next, shape, happening, manner)
                            + From(step + 1, shape, manner, before.Add(new(place.At, manner, happening, 0, 0)))
                    );
                }
                best = Math.Min(best, Slurred(step, place, next, held, shape, hand, before, manner));
            }
            return best;
        }

        private int Slurred(
            int step,
            StepPlace place,
            StepPlace? next,
            HandShape held,
            HandShape shape,
            RightState hand,
            ImmutableList<Done> before,
            int manner
        )
        {
            var s = hand.String;
            if (!hand.Rings || SlurPrice.KindOf(held, shape, s) is not { } kind)
                return int.MaxValue / 2;
            var fret = shape.FretOn(s);
            var sum = new Sum();
            lattice.Style.Manners[manner].Slurs.Of(ref sum, kind, s, held.FretOn(s), fret, place.SlurStrength);
            lattice.Notes[manner].Of(ref sum, place, next, s, fret);
            return sum.Total
                + lattice.Notes[manner].Missing(place, lattice.Setting.Tuning.KeyOf(s, fret))
                + From(step + 1, shape, manner, before.Add(new(place.At, manner, RightEvent.All[0], s, fret)));
        }

        private int Notes(StepPlace place, StepPlace? next, HandShape shape, RightEvent happening, int manner)
        {
            var notes = lattice.Notes[manner];
            var (sum, missing) = (new Sum(), notes.Missed(place));
            foreach (var (finger, on) in happening.Plucks)
            {
                var key = lattice.Setting.Tuning.KeyOf(on, shape.FretOn(on));
                notes.Of(ref sum, place, next, on, shape.FretOn(on));
                if (place.Onset == key)
                    notes.Finger(ref sum, place, finger, on);
                missing = Math.Min(missing, notes.Missing(place, key));
            }
            notes.Pair(ref sum, place, happening, shape);
            return sum.Total + missing;
        }

        // What the hand is in by what it has done, a bar of three steps being asked for no roll.
        private RightState HandBefore(StepPlace place, ImmutableList<Done> before, int manner)
        {
            var metreStep = lattice.Grid.StepOf(0);
            var state = new RightState(manner, 0);
            for (var i = 0; i < before.Count; i++)
            {
                var (done, isBetween) = (before[i], lattice.Grid.Steps[i].IsBetween);
                var start =
                    i == 0
                        ? (lattice.Grid.Steps.Any(s => s.IsBetween) ? metreStep * new Fraction(-1, 2) : -metreStep)
                        : before[i - 1].At;
                var end = i + 1 < before.Count ? before[i + 1].At : place.At;
                var holds = end - start <= metreStep;
                var older = holds ? state.Last : 0;
                if (done.Slurred != 0)
                    state = isBetween
                        ? state with
                        {
                            Last = older,
                            Older = 0,
                            Earlier = 0,
                        }
                        : new(manner, 0, older, Earlier: state.Last);
                else if (done.Event.IsSilent)
                    state =
                        isBetween && holds ? state with { Older = 0, Rings = false }
                        : isBetween ? state with { Last = 0, Older = 0, Earlier = 0, Rings = false }
                        : new(manner, 0, older);
                else if (done.Event.IsPinch)
                    state = new(manner, 0, done.Event.FingerMask, older);
                else
                    state = new(
                        manner,
                        0,
                        done.Event.FingerMask,
                        older,
                        done.Event.Plucks[0].String,
                        done.Event.Plucks[0].String < 5,
                        state.String != 0 ? state.Last : 0
                    );
            }
            return state;
        }
    }
}
