using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// Solves a whole tune: first every bar for itself and its neighbours; then once more so that the end of a repeat joins
/// the beginning it jumps to, and equal bars are played alike. Each solution is exact for what it is asked; the second
/// question is settled by the answer to the first.
/// </summary>
public static class TuneSolver
{
    /// <param name="lattice">The question.</param>
    /// <param name="locks">What must be kept to.</param>
    public static Solver Solve(StepLattice lattice, params ReadOnlySpan<Lock> locks)
    {
        var overlay = new Overlay(lattice.Grid.Steps.Length);
        foreach (var kept in locks)
            overlay.Add(kept);
        return Finish(Solver.Open(lattice, overlay));
    }

    /// <summary>From the first solution of a lattice to the one that repeats and equal bars ask for.</summary>
    public static Solver Finish(Solver first)
    {
        var lattice = first.Lattice;
        var groups = EqualBars.Of(lattice.Grid);
        if (!first.Best.IsPossible || (groups.IsEmpty && lattice.Grid.Tree.Seams.IsEmpty))
            return first;
        var overlay = first.Overlay.Copy();
        MatchEqualBars(lattice, first.Best, groups, overlay);
        var second = Solver.Open(lattice, overlay);
        if (lattice.Grid.Tree.Seams.IsEmpty)
            return second;
        overlay = overlay.Copy();
        LockSeams(lattice, second.Best, overlay);
        return Solver.Open(lattice, overlay);
    }

    // The cheapest of the equal bars is the model of the others.
    private static void MatchEqualBars(
        StepLattice lattice,
        Solution solution,
        ImmutableArray<ImmutableArray<int>> groups,
        Overlay overlay
    )
    {
        var grid = lattice.Grid;
        foreach (var group in groups)
        {
            var model = group.MinBy(bar => Cost(solution, grid.Bars[bar]));
            for (var i = 0; i < grid.CountOf(model); i++)
            {
                foreach (var bar in group)
                    overlay.Like(
                        grid.FirstOf(bar) + i,
                        new(
                            solution.Path[grid.FirstOf(model) + i],
                            Term.Consistency,
                            -lattice.Style.Weights[Term.Consistency]
                        )
                    );
            }
        }
    }

    // Where play jumps back, the first step of the bar it jumps to is settled, and every end must lead into it.
    private static void LockSeams(StepLattice lattice, Solution solution, Overlay overlay)
    {
        foreach (var (_, to) in lattice.Grid.Tree.Seams)
        {
            var step = lattice.Grid.FirstOf(to);
            overlay.Add(new StepLock(step, solution.Path[step]));
            overlay.SeamTargets[to] = solution.Path[step];
        }
    }

    private static int Cost(Solution solution, Range steps) => solution.Costs.AsSpan()[steps].ToArray().Sum();
}
