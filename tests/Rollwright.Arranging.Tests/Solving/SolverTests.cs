using CsCheck;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
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
    private static readonly LeftBounds Small = new(7, 2, 1, 5, true, 0);

    [Fact]
    public void The_path_costs_what_the_cheapest_of_all_paths_costs() =>
        TuneGenerator
            .Tunes(2)
            .Select(Shorten)
            .Sample(
                tune =>
                {
                    var lattice = LatticeOf(tune);
                    var solution = Solver.Solve(lattice, new(lattice.Grid.Steps.Length));
                    return solution.Total == new EveryPath(lattice).Cheapest();
                },
                iter: 60
            );

    [Fact]
    public void A_locked_step_stays_and_the_rest_is_solved_around_it() =>
        TuneGenerator
            .Tunes(2)
            .Sample(
                tune =>
                {
                    var lattice = LatticeOf(tune);
                    var free = Solver.Solve(lattice, new(lattice.Grid.Steps.Length));
                    var overlay = new Overlay(lattice.Grid.Steps.Length);
                    var kept = new PathStep(HandShape.Open, RightEvent.Silence);
                    overlay.Lock(1, kept);
                    var locked = Solver.Solve(lattice, overlay);
                    return locked.Path[1] == kept && locked.Total >= free.Total;
                },
                iter: 40
            );

    private static StepLattice LatticeOf(Tune tune)
    {
        var setting = new Setting(TuningTable.OpenG, 0, tune.Key, -12);
        return StepLattice.Build(StepGrid.Lay(tune, setting), setting, Small, Weights.Roll);
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

    /// <summary>Another way to the same answer: walks every path, and adds up the prices as their classes state them.</summary>
    private sealed class EveryPath(StepLattice lattice)
    {
        private readonly NotePrice notes = new(lattice.Weights, lattice.Setting);
        private readonly MovePrice moves = new(lattice.Weights);
        private readonly RightPrice right = new(lattice.Weights);
        private readonly SlurPrice slurs = new(lattice.Weights);

        public int Cheapest() => From(0, HandShape.Open, new(1, 0, 0, false));

        private int From(int step, HandShape held, RightState hand)
        {
            if (step == lattice.Grid.Steps.Length)
                return 0;
            var place = lattice.Grid.Steps[step];
            var next = step + 1 < lattice.Grid.Steps.Length ? lattice.Grid.Steps[step + 1] : null;
            var best = int.MaxValue / 2;
            foreach (var shape in lattice.ShapeIds[step].Select(id => lattice.Shape(id)))
            {
                var move = moves.Of(held, shape);
                for (var e = 0; e < RightEvent.All.Length && move < MovePrice.Impossible; e++)
                {
                    var happening = RightEvent.All[e];
                    if ((happening.FingerMask & hand.Fingers) != 0)
                        continue;
                    var way = move + right.Of(hand, happening, false);
                    best = Math.Min(
                        best,
                        way
                            + Notes(place, next, shape, happening)
                            + notes.HalfMissed(place)
                            + From(step + 1, shape, After(hand, happening))
                    );
                    if (place.HalfOnset is { } key && happening.Plucks is [var (_, s)] && s < 5)
                        best = Math.Min(best, way + Halves(step, place, next, shape, happening, key, hand));
                }
                best = Math.Min(best, Slurred(step, place, next, held, shape, hand));
            }
            return best;
        }

        private int Halves(
            int step,
            StepPlace place,
            StepPlace? next,
            HandShape shape,
            RightEvent happening,
            int key,
            RightState hand
        )
        {
            var s = happening.Plucks[0].String;
            var best = int.MaxValue / 2;
            foreach (var to in lattice.ShapeIds[step].Select(id => lattice.Shape(id)))
            {
                if (lattice.Setting.Tuning.KeyOf(s, to.FretOn(s)) == key && SlurPrice.KindOf(shape, to, s) is { } kind)
                    best = Math.Min(
                        best,
                        Notes(place, next, shape, happening)
                            + slurs.Of(kind, s, shape.FretOn(s), to.FretOn(s))
                            + From(step + 1, to, After(hand, happening))
                    );
            }
            return best;
        }

        private int Slurred(
            int step,
            StepPlace place,
            StepPlace? next,
            HandShape held,
            HandShape shape,
            RightState hand
        )
        {
            var s = hand.String;
            if (!hand.Rings || s is < 1 or > 4 || SlurPrice.KindOf(held, shape, s) is not { } kind)
                return int.MaxValue / 2;
            var fret = shape.FretOn(s);
            return slurs.Of(kind, s, held.FretOn(s), fret)
                + notes.Of(place, next, s, fret)
                + notes.Missing(place, lattice.Setting.Tuning.KeyOf(s, fret))
                + notes.HalfMissed(place)
                + (
                    place.Strength == 3 ? lattice.Weights["slur-on-one"]
                    : place.Strength == 2 ? lattice.Weights["slur-on-beat"]
                    : 0
                )
                + From(step + 1, shape, new(1, 0, 0, false));
        }

        private int Notes(StepPlace place, StepPlace? next, HandShape shape, RightEvent happening)
        {
            var (sum, missing) = (0, notes.Missed(place));
            foreach (var (finger, on) in happening.Plucks)
            {
                var key = lattice.Setting.Tuning.KeyOf(on, shape.FretOn(on));
                sum += notes.Of(place, next, on, shape.FretOn(on)) + (place.Onset == key ? notes.Finger(finger) : 0);
                missing = Math.Min(missing, notes.Missing(place, key));
            }
            return sum + missing;
        }

        // A short bar is asked for no roll: the state keeps to what the next step needs.
        private static RightState After(RightState before, RightEvent happening) =>
            happening.IsSilent ? new(1, 0, 0, false)
            : happening.IsPinch ? new(1, happening.FingerMask, 0, false)
            : new(1, happening.FingerMask, happening.Plucks[0].String, true);
    }
}
