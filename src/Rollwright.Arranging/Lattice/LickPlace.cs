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
    public int LastStep => Step + Path.Length - 1;

    /// <summary>Every place on the grid where a lick fits by chord, tuning, level, length and role.</summary>
    public static IEnumerable<LickPlace> All(StepGrid grid, Setting setting, LeftBounds bounds)
    {
        var longStrings = setting.Tuning.Open.AsSpan(0, 4).ToArray();
        var licks = LickTable
            .All.Where(lick =>
                lick.Level <= bounds.LickLevel
                && lick.Tuning.Open.AsSpan(0, 4).SequenceEqual(longStrings)
                && LickPath.HighestFret(lick) <= bounds.HighestFret
            )
            .Select(lick => (Lick: lick, Path: LickPath.Of(lick)))
            .Where(pair => !pair.Path.IsDefault)
            .ToArray();
        for (var bar = 0; bar < grid.Bars.Length; bar++)
        {
            var (first, count) = (grid.FirstOf(bar), grid.CountOf(bar));
            for (var start = 0; start < count; start++)
            {
                if (grid.Steps[first + start].Strength < 2 || grid.Steps[first + start].IsBetween)
                    continue;
                foreach (var (lick, path) in licks)
                {
                    if (
                        LickPath.Lay(path, grid, bar, first + start) is { } laid
                        && Fits(grid, lick, bar, first + start, laid.Length)
                    )
                        yield return new(lick, first + start, laid);
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
}
