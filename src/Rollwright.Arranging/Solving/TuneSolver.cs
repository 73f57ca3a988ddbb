using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Wishes;
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
    /// <param name="foundation">What lies over it from the start.</param>
    /// <param name="locks">What must be kept to besides.</param>
    public static Solver Solve(StepLattice lattice, Overlay foundation, ImmutableArray<Lock> locks)
    {
        var overlay = foundation.Copy();
        foreach (var kept in locks)
            overlay.Add(kept);
        return Finish(Solver.Open(lattice, overlay));
    }

    /// <summary>The tune as it is, nothing laid over it.</summary>
    public static Solver Solve(StepLattice lattice) => Solve(lattice, new(lattice.Grid.Steps.Length), []);

    /// <summary>From the first solution of a lattice to the one that repeats and equal bars ask for.</summary>
    public static Solver Finish(Solver first)
    {
        var lattice = first.Lattice;
        var groups = EqualBars.Of(lattice.Grid);
        if (!first.Best.IsPossible || (groups.IsEmpty && lattice.Grid.Tree.Seams.IsEmpty))
            return first;
        var overlay = first.Overlay.Copy();
        var models = Models(lattice.Grid, first.Best, groups);
        foreach (var (bar, model) in models)
            LikeModel(lattice, first.Best, bar, model, overlay);
        // Where play jumps back, the first step of the bar it jumps to is settled, and every end must lead into it.
        foreach (var (_, to) in lattice.Grid.Tree.Seams)
        {
            var settled = first.Best.Path[lattice.Grid.FirstOf(models.GetValueOrDefault(to, to))];
            overlay.Add(new StepLock(lattice.Grid.FirstOf(to), settled));
            overlay.SeamTargets[to] = settled;
        }
        var finished = Solver.Open(lattice, overlay);
        if (finished.Best.IsPossible)
            return finished;
        var own = Settled(first, overlay);
        return own.Best.IsPossible ? own : Beginnings.Find(first, overlay);
    }

    // Where an equal bar's beginning cannot stand at another's place, each keeps its own.
    private static Solver Settled(Solver first, Overlay overlay)
    {
        var grid = first.Lattice.Grid;
        var own = first.Overlay.Copy();
        foreach (var (_, to) in grid.Tree.Seams)
        {
            var step = grid.FirstOf(to);
            own.Add(new StepLock(step, first.Best.Path[step]));
            own.SeamTargets[to] = first.Best.Path[step];
        }
        own.LikeAs(overlay);
        return Solver.Open(first.Lattice, own);
    }

    // The cheapest of the equal bars is the model of the others.
    private static Dictionary<int, int> Models(
        StepGrid grid,
        Solution solution,
        ImmutableArray<ImmutableArray<int>> groups
    )
    {
        var models = new Dictionary<int, int>();
        foreach (var group in groups)
        {
            var model = group.MinBy(bar => Cost(solution, grid.Bars[bar]));
            foreach (var bar in group)
                models[bar] = model;
        }
        return models;
    }

    private static void LikeModel(StepLattice lattice, Solution solution, int bar, int model, Overlay overlay)
    {
        var grid = lattice.Grid;
        var price = -lattice.Style.Weights[Term.Consistency];
        for (var i = 0; i < grid.CountOf(model); i++)
            overlay.Like(grid.FirstOf(bar) + i, new(solution.Path[grid.FirstOf(model) + i], Term.Consistency, price));
    }

    private static int Cost(Solution solution, Range steps) => solution.Costs.AsSpan()[steps].ToArray().Sum();
}
