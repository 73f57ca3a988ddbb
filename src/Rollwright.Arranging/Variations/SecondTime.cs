using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Locks;
using Rollwright.Arranging.Solving;

namespace Rollwright.Arranging.Variations;

/// <summary>Plays the second time through a part otherwise, the first time plain.</summary>
internal static class SecondTime
{
    private const int FirstPrice = 100;
    private const int HighestPrice = 1600;

    /// <param name="plain">The tune with its repeats written out, solved.</param>
    /// <param name="order">The written bar of each bar as played.</param>
    /// <param name="differs">Share of the steps of the second times that must sound otherwise, 0 to 1.</param>
    public static Solver Vary(Solver plain, ImmutableArray<int> order, double differs)
    {
        var grid = plain.Lattice.Grid;
        var first = new Dictionary<int, int>();
        var pairs = new List<(int Plain, int Varied)>();
        for (var bar = 0; bar < order.Length; bar++)
        {
            if (!first.TryAdd(order[bar], bar))
                pairs.Add((first[order[bar]], bar));
        }
        if (pairs.Count == 0)
            return plain;
        var best = plain;
        for (var price = FirstPrice; price <= HighestPrice; price *= 2)
        {
            var overlay = new Overlay(grid.Steps.Length);
            foreach (var bar in first.Values)
            {
                for (var step = grid.FirstOf(bar); step < grid.Bars[bar].End.Value; step++)
                    overlay.Add(new SoundLock(step, plain.Best.Path[step]));
            }
            foreach (var (model, varied) in pairs)
            {
                for (var i = 0; i < grid.CountOf(varied); i++)
                    overlay.Like(
                        grid.FirstOf(varied) + i,
                        new(plain.Best.Path[grid.FirstOf(model) + i], Term.Repeated, price)
                    );
            }
            best = Solver.Open(plain.Lattice, overlay);
            if (Share(best, plain, pairs) >= differs)
                break;
        }
        return best;
    }

    private static double Share(Solver varied, Solver plain, List<(int Plain, int Varied)> pairs)
    {
        var grid = plain.Lattice.Grid;
        int all = 0,
            otherwise = 0;
        foreach (var (model, bar) in pairs)
        {
            for (var i = 0; i < grid.CountOf(bar); i++)
            {
                all++;
                var same = varied.Best.Path[grid.FirstOf(bar) + i].SoundsLike(plain.Best.Path[grid.FirstOf(model) + i]);
                otherwise += same ? 0 : 1;
            }
        }
        return (double)otherwise / all;
    }
}
