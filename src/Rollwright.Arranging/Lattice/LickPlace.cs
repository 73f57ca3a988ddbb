using System.Collections.Immutable;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Chords;

namespace Rollwright.Arranging.Lattice;

/// <summary>A lick where it could stand: an edge of the lattice over several steps of one bar.</summary>
/// <param name="Lick">The lick.</param>
/// <param name="Step">Its first step.</param>
/// <param name="Path">What the hands do, one entry a step.</param>
public sealed record LickPlace(Lick Lick, int Step, ImmutableArray<PathStep> Path)
{
    public int LastStep => Step + Path.Length - 1;

    /// <summary>It is offered, and played only where someone puts it in.</summary>
    public bool IsByChoice { get; init; }

    /// <summary>Every place on the grid where a lick fits by chord, tuning, level, length and role.</summary>
    public static IEnumerable<LickPlace> All(StepGrid grid, Setting setting, LeftBounds bounds, LickIndex bank)
    {
        var licks = bank.For(setting);
        for (var bar = 0; bar < grid.Bars.Length; bar++)
        {
            for (var step = grid.FirstOf(bar); step < grid.Bars[bar].End.Value; step++)
            {
                var place = grid.Steps[step];
                if (place.IsBetween || place.Chord is not { } chord)
                    continue;
                foreach (var entry in licks[new(chord.Root.PitchClass, grid.IsInThrees(bar))])
                {
                    if (
                        entry.Lick.Level <= bounds.LickLevel
                        && entry.HighestFret <= bounds.HighestFret
                        && (bounds.Slurs || !entry.HasSlurs)
                        && Laid(grid, entry.Lick, entry.Path, bar, step) is { } laid
                    )
                        yield return new(entry.Lick, step, laid);
                }
            }
        }
    }

    public bool Equals(LickPlace? other) =>
        other is not null && ReferenceEquals(Lick, other.Lick) && Step == other.Step;

    public override int GetHashCode() => HashCode.Combine(Lick.Name, Step);

    // The lick's path from a step on where its role lets it stand there; null where it does not.
    private static ImmutableArray<PathStep>? Laid(
        StepGrid grid,
        Lick lick,
        ImmutableArray<PathStep> path,
        int bar,
        int step
    )
    {
        var isOnBeat = grid.Steps[step].Strength >= 2;
        if (lick.Role == LickRole.Tag)
        {
            // A closing lick begins the tune's last bar and fills it: the rests at its end may be cut.
            if (bar != grid.LastPlayed || step != grid.FirstOf(bar))
                return null;
            var room = grid.MainStepsOf(bar);
            if (room < lick.SoundingLength || room > lick.Length)
                return null;
            path = path[..room];
        }
        else if (!isOnBeat && lick.Role != LickRole.Pickup)
        {
            return null;
        }
        if (LickPath.Lay(path, grid, bar, step) is not { } laid)
            return null;
        var last = step + laid.Length - 1;
        var endsBar = last == grid.Bars[bar].End.Value - 1;
        // What stands in the middle of a bar stops where a beat begins: the hands take up the tune there.
        if (!endsBar && grid.Steps[last + 1].Strength < 2)
            return null;
        var fits = lick.Role switch
        {
            LickRole.Pickup => endsBar && bar != grid.LastPlayed && LeadsTo(grid, bar, lick.Next),
            LickRole.Turnaround => endsBar && grid.EndsPart(bar) && LeadsTo(grid, bar, lick.Next),
            LickRole.Run => lick.Next is null
                || (
                    endsBar
                        ? LeadsTo(grid, bar, lick.Next)
                        : IsChord(grid.Steps[last + 1].Chord, lick.Next.Value) && grid.Steps[last + 1].Strength >= 2
                ),
            _ => true,
        };
        if (!fits)
            return null;
        for (var i = step; i <= last; i++)
        {
            if (!IsChord(grid.Steps[i].Chord, lick.Chord))
                return null;
        }
        return laid;
    }

    // Whatever bar comes next begins on the chord that the lick leads to.
    private static bool LeadsTo(StepGrid grid, int bar, Chord? next)
    {
        if (next is not { } chord)
            return true;
        var after = grid
            .Tree.Children[bar]
            .Concat(grid.Tree.Seams.Where(seam => seam.From == bar).Select(seam => seam.To));
        return after.Any() && after.All(follower => IsChord(grid.Steps[grid.FirstOf(follower)].Chord, chord));
    }

    private static bool IsChord(Chord? found, Chord wanted) => found is { } chord && chord.HasTriadOf(wanted);
}
