using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Solving;

/// <summary>The price of what sounds at one step, term by term: the same that the tables of the lattice add up.</summary>
internal static class StepTerms
{
    /// <summary>Left hand, notes and slurs of a step; the right hand is priced by its own way.</summary>
    /// <param name="tally">Takes the terms.</param>
    /// <param name="lattice">The question.</param>
    /// <param name="overlay">What is laid over it.</param>
    /// <param name="step">The step.</param>
    /// <param name="held">The shape before; null where the way into the step is priced elsewhere.</param>
    /// <param name="done">What is done.</param>
    public static void Sounding<T>(
        ref T tally,
        StepLattice lattice,
        Overlay overlay,
        int step,
        HandShape? held,
        PathStep done
    )
        where T : struct, ITally
    {
        var place = lattice.Grid.Steps[step];
        var notes = lattice.Notes[done.Manner];
        var slurs = lattice.Style.Manners[done.Manner].Slurs;
        var after = lattice.After(step);
        var next = after < 0 ? null : lattice.Grid.Steps[after];
        if (done.SlurString is var s and not 0)
        {
            var fret = done.Shape.FretOn(s);
            if (held is { } from)
                slurs.Of(ref tally, done.Slur!.Value, s, from.FretOn(s), fret, place.SlurStrength);
            notes.Of(ref tally, place, next, s, fret);
            Missing(ref tally, notes.Missing(place, lattice.Setting.Tuning.KeyOf(s, fret)), notes, place);
        }
        else
        {
            if (held is { } from)
                lattice.Style.Moves.Of(ref tally, from, done.Shape);
            var left = notes.Missed(place);
            foreach (var (finger, on) in done.Event.Plucks)
            {
                var key = lattice.Setting.Tuning.KeyOf(on, done.Shape.FretOn(on));
                notes.Of(ref tally, place, next, on, done.Shape.FretOn(on));
                if (place.Onset == key)
                    notes.Finger(ref tally, place, finger, on);
                left = Math.Min(left, notes.Missing(place, key));
            }
            var late = left;
            if (done.HalfShape is { } reached)
            {
                var on = done.Event.Plucks[0].String;
                late = Math.Min(left, notes.MissingLate(place, lattice.Setting.Tuning.KeyOf(on, reached.FretOn(on))));
            }
            if (late < left)
                tally.Add(Term.MelodyLate, late);
            else
                Missing(ref tally, left, notes, place);
            notes.Pair(ref tally, place, done.Event, done.Shape);
            if (done.HalfShape is { } half)
            {
                var on = done.Event.Plucks[0].String;
                slurs.Of(ref tally, done.HalfSlur!.Value, on, done.Shape.FretOn(on), half.FretOn(on), 0);
            }
        }
        overlay.Price(ref tally, step, done);
    }

    private static void Missing<T>(ref T tally, int left, NotePrice notes, Wishes.StepPlace place)
        where T : struct, ITally =>
        tally.Add(left > 0 && left < notes.Missed(place) ? Term.MelodyOctave : Term.MelodyMissed, left);
}
