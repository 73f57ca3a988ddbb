using System.Collections.Immutable;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Wishes;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Locks;

/// <summary>Finds which locks contradict each other: a smallest set that no hands can keep, each of them needed for it.</summary>
public static class Conflict
{
    /// <summary>Which of the locks cannot be kept together, in words.</summary>
    /// <param name="lattice">The question.</param>
    /// <param name="foundation">What lies over it from the start and stays.</param>
    /// <param name="locks">All that are asked for, the oldest first.</param>
    public static string Words(StepLattice lattice, Overlay foundation, ImmutableArray<Lock> locks)
    {
        var needed = locks;
        // Locks are left out one at a time, the oldest first; what then becomes possible was needed for the conflict.
        foreach (var kept in locks)
        {
            var fewer = needed.Remove(kept);
            if (!IsPossible(lattice, foundation, fewer))
                needed = fewer;
        }
        var words = string.Join(" and ", needed.Select(kept => $"{Place(lattice.Grid, kept)}: {kept.Words}"));
        return needed.Length == 1
            ? $"Hands cannot do this: {words}; take it away, or choose a higher level."
            : $"These cannot be kept together: {words}; take one of them away.";
    }

    private static bool IsPossible(StepLattice lattice, Overlay foundation, ImmutableArray<Lock> locks) =>
        TuneSolver.Solve(lattice, foundation, locks).Best.IsPossible;

    private static string Place(StepGrid grid, Lock kept)
    {
        var (first, last) = (grid.Place(kept.First), grid.Place(kept.Last));
        return first == last ? first : $"{first} to {last}";
    }
}
