using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;

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

    /// <summary>From this share of notes on the neck on, a tune may go an octave up (assumption).</summary>
    private const double MostOfTheTune = 0.9;

    /// <summary>One more version.</summary>
    /// <param name="made">The break that the version is of.</param>
    /// <param name="version">What kind.</param>
    /// <param name="before">Versions that it must differ from, the break itself included.</param>
    /// <param name="differs">Share of the steps that must differ; null for the version's own.</param>
    /// <returns>The version, what was laid over it, and the least share of steps in which it differs from one before.</returns>
    public static (Solver Solver, Overlay Foundation, double Share) Make(
        Arrangement made,
        Version version,
        ImmutableArray<Solver> before,
        double? differs = null
    )
    {
        var from = made.Solver.Lattice;
        var style = version.Apply(from.Style);
        var lattice = version.IsOctaveUp && OctaveUp(made, style) is { } up && Keeps(up, made) ? up : from.With(style);
        var wanted = differs ?? version.Differs;
        var best = (made.Solver, Foundation: new Overlay(lattice.Grid.Steps.Length), Share: 0.0);
        for (var price = FirstPrice; price <= HighestPrice; price *= 2)
        {
            var overlay = new Overlay(lattice.Grid.Steps.Length);
            foreach (var other in before)
                Repeated(overlay, other.Best, price);
            var solver = TuneSolver.Solve(lattice, overlay, made.Locks);
            if (!solver.Best.IsPossible)
                break;
            var share = before.Min(other => ShareOtherwise(solver.Best, other.Best));
            if (share > best.Share)
                best = (solver, overlay, share);
            if (share >= wanted)
                break;
        }
        return best;
    }

    // The tune an octave higher; null where too much of it would lie beyond the level's highest fret.
    private static StepLattice? OctaveUp(Arrangement made, Style style)
    {
        var from = made.Solver.Lattice;
        var setting = from.Setting with { Shift = from.Setting.Shift + 12 };
        var grid = StepGrid.Lay(made.Tune, setting, style.FollowsTune);
        var onsets = grid.Steps.Where(step => step.Onset is not null).ToArray();
        var highest = setting.Tuning.OpenOf(1) + from.Bounds.HighestFret;
        var reached = onsets.Count(step => step.Onset <= highest);
        return reached >= MostOfTheTune * onsets.Length ? StepLattice.Build(grid, setting, from.Bounds, style) : null;
    }

    // The player's locks may hold the tune where it is.
    private static bool Keeps(StepLattice lattice, Arrangement made) =>
        made.Locks.IsEmpty || TuneSolver.Solve(lattice, new(lattice.Grid.Steps.Length), made.Locks).Best.IsPossible;

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
