using System.Collections.Immutable;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Lattice;

/// <summary>A lick where it could stand: an edge of the lattice over several steps of one bar.</summary>
/// <param name="Lick">The lick.</param>
/// <param name="Step">Its first step.</param>
/// <param name="Path">What the hands do, one entry a step.</param>
public sealed record LickPlace(Lick Lick, int Step, ImmutableArray<PathStep> Path)
{
    /// <summary>Every place on the grid where a lick fits by chord, tuning, level, length and role.</summary>
    public static IEnumerable<LickPlace> All(StepGrid grid, Setting setting, int level)
    {
        var longStrings = setting.Tuning.Open.AsSpan(0, 4).ToArray();
        var licks = LickTable
            .All.Where(lick => lick.Level <= level && lick.Tuning.Open.AsSpan(0, 4).SequenceEqual(longStrings))
            .Select(lick => (Lick: lick, Path: PathOf(lick)))
            .Where(pair => !pair.Path.IsDefault)
            .ToArray();
        for (var bar = 0; bar < grid.Bars.Length; bar++)
        {
            var (first, count) = (grid.FirstOf(bar), grid.CountOf(bar));
            for (var start = 0; start < count; start++)
            {
                if (grid.Steps[first + start].Strength < 2)
                    continue;
                foreach (var (lick, path) in licks)
                {
                    if (start + path.Length <= count && Fits(grid, lick, bar, first + start, path.Length))
                        yield return new(lick, first + start, path);
                }
            }
        }
    }

    private static bool Fits(StepGrid grid, Lick lick, int bar, int step, int length)
    {
        if (lick.Role == LickRole.Tag && (bar != grid.LastPlayed || step + length != grid.Bars[bar].End.Value))
            return false;
        if (lick.IsInThrees != grid.IsInThrees(bar))
            return false;
        for (var i = step; i < step + length; i++)
        {
            if (grid.Steps[i].Chord is not { } chord || chord.Root.PitchClass != lick.Chord.Root.PitchClass)
                return false;
            if (!chord.PitchClasses.Take(3).SequenceEqual(lick.Chord.PitchClasses.Take(3)))
                return false;
        }
        return true;
    }

    // Fingers come down when they are first needed and stay while their fret is needed again.
    private static ImmutableArray<PathStep> PathOf(Lick lick)
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
