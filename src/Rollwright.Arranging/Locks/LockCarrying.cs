using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Locks;

/// <summary>
/// Brings locks from one arrangement of a tune to another, of another level, style or setting: what still makes sense there
/// is kept, and what does not is named with its reason.
/// </summary>
public static class LockCarrying
{
    /// <summary>The other arrangement with the locks that can be kept in it, the oldest first.</summary>
    /// <param name="locks">Locks of steps of <paramref name="from"/>.</param>
    /// <param name="from">Where they were set.</param>
    /// <param name="to">Where they go; of the same tune.</param>
    /// <returns>The arrangement, and what was let go, as it was set, with a reason that follows "because".</returns>
    public static (Arrangement Made, ImmutableArray<(Lock Lock, string Why)> LetGo) Carry(
        ImmutableArray<Lock> locks,
        Arrangement from,
        Arrangement to
    )
    {
        var letGo = ImmutableArray.CreateBuilder<(Lock, string)>();
        if (from.Grid.Bars.Length != to.Grid.Bars.Length)
            return (to, [.. locks.Select(kept => (kept, "the repeats are written otherwise"))]);
        var carried = new List<(Lock Old, Lock New)>();
        foreach (var kept in locks)
        {
            var (moved, why) = Moved(kept, from, to);
            if (moved is null)
                letGo.Add((kept, why));
            else
                carried.Add((kept, moved));
        }
        var (made, leftOut) = to.WithWhatCanBe([.. carried.Select(pair => pair.New)]);
        foreach (var (old, moved) in carried.Where(pair => leftOut.Any(left => ReferenceEquals(left, pair.New))))
            letGo.Add((old, "hands cannot do it now"));
        return (made, letGo.ToImmutable());
    }

    private static (Lock? Lock, string Why) Moved(Lock kept, Arrangement from, Arrangement to)
    {
        if (kept is WayLock way && way.Manner >= to.Style.Manners.Length)
            return (null, "the style has one way of playing now");
        var speaksOfFrets =
            kept is not (RestLock or SlurLock or PinchLock or FingerLock or WayLock or NoSlurLock or FretLock);
        if (speaksOfFrets && !SoundAlike(from.Break.Setting, to.Break.Setting))
            return (null, "the frets have other notes of the tune now");
        if (kept.First == kept.Last)
        {
            if (StepAt(to.Grid, from.Grid.Steps[kept.First]) is not { } step)
                return (null, "there is no step there now");
            return kept is LickLock lick ? Lick(lick, step, to) : (At(kept, step, step), "");
        }
        var first = FirstFrom(to.Grid, from.Grid.Steps[kept.First]);
        return kept is LickLock whole ? Lick(whole, first, to)
            : LastUpTo(to.Grid, from.Grid.Steps[kept.Last]) is var last && first <= last ? (At(kept, first, last), "")
            : (null, "there is no step there now");
    }

    // The hands find the same tune at the same frets: a capo that moves the key along changes nothing for them.
    private static bool SoundAlike(Setting one, Setting other) =>
        one.Tuning == other.Tuning && one.Shift - one.Capo == other.Shift - other.Capo;

    private static (Lock? Lock, string Why) Lick(LickLock lick, int step, Arrangement to) =>
        to.LicksAt(step).FirstOrDefault(place => place.Lick == lick.Place.Lick) is { } place
            ? (new LickLock(place), "")
            : (null, "the lick does not fit there now");

    private static Lock At(Lock kept, int first, int last) =>
        kept switch
        {
            StepLock one => new StepLock(first, one.Kept),
            SoundLock one => new SoundLock(first, one.Kept),
            NoteLock one => new NoteLock(first, one.String, one.Fret, one.Finger),
            RestLock => new RestLock(first),
            SlurLock => new SlurLock(first),
            PinchLock => new PinchLock(first),
            FingerLock one => new FingerLock(first, one.Finger),
            _ => kept with { First = first, Last = last },
        };

    private static int? StepAt(StepGrid grid, StepPlace place)
    {
        var step = FirstFrom(grid, place);
        return
            step < grid.Steps.Length && grid.Steps[step] is var found && (found.Bar, found.At) == (place.Bar, place.At)
            ? step
            : null;
    }

    private static int FirstFrom(StepGrid grid, StepPlace place)
    {
        var step = grid.FirstOf(place.Bar);
        while (step < grid.Bars[place.Bar].End.Value && grid.Steps[step].At < place.At)
            step++;
        return step;
    }

    private static int LastUpTo(StepGrid grid, StepPlace place)
    {
        var step = grid.Bars[place.Bar].End.Value - 1;
        while (step > grid.FirstOf(place.Bar) && grid.Steps[step].At > place.At)
            step--;
        return step;
    }
}
