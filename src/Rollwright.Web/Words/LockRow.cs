using System.Collections.Immutable;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Wishes;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Web.Words;

/// <summary>One row of the list of what is kept: locks of neighbouring steps that ask the same stand in one.</summary>
/// <param name="Place">"bar 3".</param>
/// <param name="Words">"keeps its notes".</param>
/// <param name="Locks">At least one.</param>
public sealed record LockRow(string Place, string Words, ImmutableArray<Lock> Locks)
{
    /// <summary>In order of time.</summary>
    public static ImmutableArray<LockRow> Of(StepGrid grid, ImmutableArray<Lock> locks)
    {
        var runs = new List<List<Lock>>();
        foreach (var kept in locks.OrderBy(kept => kept.First).ThenBy(kept => kept.Last))
        {
            if (
                kept is SoundLock
                && runs.LastOrDefault() is [.., SoundLock before] run
                && before.Last + 1 == kept.First
            )
                run.Add(kept);
            else
                runs.Add([kept]);
        }
        return
        [
            .. runs.Select(run => new LockRow(PlaceWords.Of(grid, run[0].First, run[^1].Last), run[0].Words, [.. run])),
        ];
    }
}
