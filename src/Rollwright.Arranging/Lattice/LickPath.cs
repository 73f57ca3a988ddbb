using System.Collections.Immutable;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Lattice;

/// <summary>A lick as what the hands do at each step of the metre, and laid on the steps of a tune.</summary>
public static class LickPath
{
    /// <summary>
    /// One entry a step. Fingers come down when they are first needed and stay while their fret is needed again.
    /// Default where the right hand has no such event.
    /// </summary>
    public static ImmutableArray<PathStep> Of(Lick lick)
    {
        var path = ImmutableArray.CreateBuilder<PathStep>(lick.Steps.Length);
        for (var i = 0; i < lick.Steps.Length; i++)
        {
            var step = lick.Steps[i];
            var shape = HandShape.Open;
            for (var s = 1; s <= 4; s++)
            {
                if (Held(lick, s, i) is { Fret: > 0 } held)
                    shape = shape.With(s, held.Fret, held.Left);
            }
            var happening = EventOf(step);
            if (happening < 0)
                return default;
            path.Add(
                step.Slur is { } slur ? new(shape, RightEvent.Silence, slur.String, slur.Kind)
                : step.HalfSlur is { } half
                    ? new(shape, happening, 0, null, shape.With(half.String, half.Fret, half.Left), half.Kind)
                : new(shape, happening)
            );
        }
        return path.ToImmutable();
    }

    /// <summary>
    /// The path on the grid's steps from one on: steps between those of the metre are silent, or take the slur that falls on
    /// them. Null where the lick does not end within the bar.
    /// </summary>
    public static ImmutableArray<PathStep>? Lay(ImmutableArray<PathStep> path, StepGrid grid, int bar, int step)
    {
        var end = grid.Bars[bar].End.Value;
        var laid = ImmutableArray.CreateBuilder<PathStep>(path.Length);
        var at = step;
        foreach (var done in path)
        {
            if (at >= end || grid.Steps[at].IsBetween)
                return null;
            var between = at + 1 < end && grid.Steps[at + 1].IsBetween;
            if (between && at + 2 < end && grid.Steps[at + 2].IsBetween)
                return null;
            if (!between)
            {
                laid.Add(done);
                at++;
                continue;
            }
            laid.Add(done with { HalfShape = null, HalfSlur = null });
            laid.Add(
                done.HalfShape is { } half
                    ? new(half, RightEvent.Silence, done.Event.Plucks[0].String, done.HalfSlur)
                    : new(done.Shape, RightEvent.Silence)
            );
            at += 2;
        }
        return laid.ToImmutable();
    }

    private static int EventOf(LickStep step) =>
        RightEvent.All.IndexOf(
            RightEvent.All.FirstOrDefault(happening =>
                happening.Plucks.Length == step.Plucks.Length
                && happening
                    .Plucks.OrderBy(pluck => pluck.String)
                    .Select(pluck => (pluck.String, pluck.Finger))
                    .SequenceEqual(step.Plucks.Select(note => (note.String, note.Right)))
            )!
        );

    // The fret on a string at a step: the one that sounds now, or one that sounded and will be wanted again.
    private static (int Fret, int Left)? Held(Lick lick, int s, int at)
    {
        var (before, after) = (FretAt(lick, s, at, -1), FretAt(lick, s, at, +1));
        var now = Sounding(lick.Steps[at], s);
        return now ?? (before is not null && before == after ? before : null);
    }

    private static (int Fret, int Left)? FretAt(Lick lick, int s, int from, int direction)
    {
        for (var i = from + direction; i >= 0 && i < lick.Steps.Length; i += direction)
        {
            if (direction < 0 && lick.Steps[i].HalfSlur is { } half && half.String == s)
                return (half.Fret, half.Left);
            if (Sounding(lick.Steps[i], s) is { } found)
                return found;
        }
        return null;
    }

    private static (int Fret, int Left)? Sounding(LickStep step, int s)
    {
        if (step.Slur is { } slur && slur.String == s)
            return (slur.Fret, slur.Left);
        foreach (var note in step.Plucks)
        {
            if (note.String == s)
                return (note.Fret, note.Left);
        }
        return null;
    }
}
