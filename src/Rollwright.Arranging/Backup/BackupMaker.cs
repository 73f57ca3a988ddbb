using System.Collections.Immutable;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Backup;

/// <summary>A part to play behind someone else, from the chords alone: rolls over a bass line, or bass and chop.</summary>
internal static class BackupMaker
{
    private const int Whole = 3;
    private const int Least = 2;

    /// <param name="tune">A tune with chords, at its own pitch.</param>
    /// <param name="setting">The setting of the break that it goes with.</param>
    /// <param name="kind">Rolls or vamp.</param>
    /// <param name="level">What the hands may be asked for.</param>
    /// <returns>The bass line as a tune, the part, and what was laid over its lattice.</returns>
    public static (Tune Line, Solver Solver, Overlay Foundation) Make(
        Tune tune,
        Setting setting,
        BackupKind kind,
        LevelTable.Level level
    )
    {
        var isVamp = kind == BackupKind.Vamp;
        var line = BassLine.Under(tune, setting, runs: !isVamp);
        var style = StyleTable.Find(isVamp ? "vamp" : "backup")!;
        var draft = Drafts.Draft(line, setting, level, style);
        if (!isVamp)
            return (line, TuneSolver.Finish(draft), draft.Overlay);
        // Whole closed chords where the hand can hold them; two of their notes where it cannot yet, or cannot get to them.
        var full = Vamp(line, draft, setting, Whole);
        return full.Solver.Best.IsPossible ? full : Vamp(line, draft, setting, Least);
    }

    private static (Tune Line, Solver Solver, Overlay Foundation) Vamp(
        Tune line,
        Solver draft,
        Setting setting,
        int strings
    )
    {
        var overlay = new Overlay(draft.Lattice.Grid.Steps.Length);
        foreach (var kept in VampLocks(line, draft.Lattice, setting, strings))
            overlay.Add(kept);
        return (line, TuneSolver.Solve(draft.Lattice, overlay, []), overlay);
    }

    // Bass where the line has a note, a chop half way to the next, silence elsewhere. A pickup keeps still.
    private static IEnumerable<Lock> VampLocks(Tune line, StepLattice lattice, Setting setting, int strings)
    {
        var grid = lattice.Grid;
        for (var bar = 0; bar < grid.Bars.Length; bar++)
        {
            var places = BassLine.Places(line.Bars[bar]);
            var chops = Chops(line.Bars[bar], places);
            for (var step = grid.FirstOf(bar); step < grid.Bars[bar].End.Value; step++)
            {
                var place = grid.Steps[step];
                yield return place.Onset is { } key ? new BassLock(step, key, setting.Tuning)
                : place.Chord is { } chord && !line.Bars[bar].Notes.IsEmpty && chops.Contains(place.At)
                    ? Chop(lattice, new(step, chord, setting.Tuning, strings))
                : new RestLock(step);
            }
        }
    }

    // As many strings as some shape of the step has of the chord.
    private static VampLock Chop(StepLattice lattice, VampLock wanted) =>
        lattice
            .Shapes[wanted.Step]
            .Any(shape => RightEvent.All.Index().Any(row => wanted.Allows(wanted.Step, new(shape, row.Index))))
            ? wanted
            : wanted with
            {
                Strings = Least,
            };

    private static HashSet<Fraction> Chops(TuneBar bar, ImmutableArray<Fraction> places)
    {
        var chops = new HashSet<Fraction>();
        // In three the chop falls on the second and third beat, else half way between the bass notes.
        if (bar.Time.Beats == 3 && !bar.Time.IsCompound)
            return [bar.Time.Beat, bar.Time.Beat * 2];
        for (var i = 0; i < places.Length; i++)
        {
            var end = i + 1 < places.Length ? places[i + 1] : bar.Length;
            var way = end - places[i];
            // Beats in threes: the chop falls on the last third.
            chops.Add(places[i] + (way * (bar.Time.IsCompound ? new Fraction(2, 3) : new Fraction(1, 2))));
        }
        return chops;
    }
}
