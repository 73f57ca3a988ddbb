using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;

namespace Rollwright.Arranging.Advice;

/// <summary>How much of the tune a path keeps: its notes at their time and pitch, weighed by length and place in the metre.</summary>
public static class Kept
{
    /// <summary>Share of the tune in some bars, 0 to 1; 1 where the tune has nothing there.</summary>
    public static double Share(StepLattice lattice, Solution solution, IEnumerable<int> bars)
    {
        long all = 0,
            kept = 0;
        foreach (var bar in bars)
        {
            for (var step = lattice.Grid.FirstOf(bar); step < lattice.Grid.Bars[bar].End.Value; step++)
            {
                var place = lattice.Grid.Steps[step];
                if (place.Onset is not { } key)
                    continue;
                all += place.Weight;
                if (solution.Path[step].Sounds(key, lattice.Setting.Tuning))
                    kept += place.Weight;
            }
        }
        return all == 0 ? 1 : (double)kept / all;
    }

    public static double Share(StepLattice lattice, Solution solution) =>
        Share(lattice, solution, Enumerable.Range(0, lattice.Grid.Bars.Length));
}
