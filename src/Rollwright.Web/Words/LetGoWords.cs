using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Web.Words;

/// <summary>What could not be kept when another level, style or setting was asked for, in one line.</summary>
public static class LetGoWords
{
    /// <summary>"Let go: bar 3: keeps its notes (hands cannot do it now); bar 5, beat 1: silence (…)."; empty for nothing.</summary>
    /// <param name="letGo">Locks with the reason of each, and the grid in which they were set.</param>
    public static string Of(params ReadOnlySpan<(StepGrid Grid, ImmutableArray<(Lock Lock, string Why)> Locks)> letGo)
    {
        var rows = new List<string>();
        foreach (var (grid, locks) in letGo)
        {
            foreach (var group in locks.GroupBy(one => one.Why))
                rows.AddRange(
                    LockRow
                        .Of(grid, [.. group.Select(one => one.Lock)])
                        .Select(row => $"{row.Place}: {row.Words} ({group.Key})")
                );
        }
        return rows.Count == 0 ? "" : $"Let go: {string.Join("; ", rows)}.";
    }
}
