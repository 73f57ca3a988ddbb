using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;

namespace Rollwright.Arranging.Variations;

/// <summary>
/// Other versions of a break: the best path under a version's prices that sounds otherwise in enough steps than every
/// version before it. What was done before is made dearer until that is so; the price of the tune's notes stays, so that
/// the tune does.
/// </summary>
public static class VersionMaker
{
    // The price on doing a step as before is doubled up to this; beyond it the tune itself would be the cheaper thing to leave.
    private const int FirstPrice = 100;
    private const int HighestPrice = 1600;

    /// <summary>One more version.</summary>
    /// <param name="made">The break that the version is of.</param>
    /// <param name="version">What kind.</param>
    /// <param name="before">Versions that it must differ from, the break itself included.</param>
    /// <param name="differs">Share of the steps that must differ; null for the version's own.</param>
    /// <returns>The version, and the least share of steps in which it differs from one before.</returns>
    public static (Solver Solver, double Share) Make(
        Arrangement made,
        Version version,
        ImmutableArray<Solver> before,
        double? differs = null
    )
    {
        var from = made.Solver.Lattice;
        var style = version.Apply(from.Style);
        var lattice = from.With(style);
        var wanted = differs ?? version.Differs;
        var best = (Solver: made.Solver, Share: -1.0);
        for (var price = FirstPrice; price <= HighestPrice; price *= 2)
        {
            var overlay = new Overlay(lattice.Grid.Steps.Length);
            foreach (var kept in made.Locks)
                overlay.Add(kept);
            foreach (var other in before)
                Repeated(overlay, other.Best, price);
            var solver = TuneSolver.Finish(Solver.Open(lattice, overlay));
            if (!solver.Best.IsPossible)
                break;
            var share = before.Min(other => ShareOtherwise(solver.Best, other.Best));
            if (share > best.Share)
                best = (solver, share);
            if (share >= wanted)
                break;
        }
        return best;
    }

    /// <summary>Share of the steps that sound otherwise, 0 to 1.</summary>
    public static double ShareOtherwise(Solution one, Solution other)
    {
        var otherwise = 0;
        for (var step = 0; step < one.Path.Length; step++)
            otherwise += one.Path[step].SoundsLike(other.Path[step]) ? 0 : 1;
        return (double)otherwise / one.Path.Length;
    }

    private static void Repeated(Overlay overlay, Solution other, int price)
    {
        for (var step = 0; step < other.Path.Length; step++)
            overlay.Like(step, new(other.Path[step], Term.Repeated, price));
    }
}
