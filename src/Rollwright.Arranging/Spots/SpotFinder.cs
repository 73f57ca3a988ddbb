using System.Collections.Immutable;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Licks;

namespace Rollwright.Arranging.Spots;

/// <summary>
/// Prices every lick in every place by one sweep: the past before it, the lick, the future after it. No lattice is
/// solved again.
/// </summary>
public static class SpotFinder
{
    public const int Shown = 10;

    /// <summary>Every place with its price, in the order of the lattice; those that no hand can join are left out.</summary>
    public static ImmutableArray<LickFit> Fits(Solver solver)
    {
        var fits = ImmutableArray.CreateBuilder<LickFit>();
        var past = solver.Past;
        var best = solver.Best.Total;
        for (var step = 0; step < solver.Lattice.Grid.Steps.Length; step++)
        {
            var states = solver.Lattice.LayerOf(step).States.Length;
            foreach (var lick in solver.LicksAt(step).Concat(solver.OfferedAt(step)))
            {
                var price = PriceOf(solver, past, lick, step, states);
                if (price < Solver.Barrier)
                    fits.Add(new(lick.Place, price - best, Forfeited(solver, lick.Place)));
            }
        }
        return fits.ToImmutable();
    }

    /// <summary>The spans in which licks fit within a price, in order of time.</summary>
    /// <param name="grid">The steps that the fits speak of.</param>
    /// <param name="fits">What fits, as <see cref="Fits"/> found it.</param>
    /// <param name="within">How much dearer the break may get, thousandths of a plain melody note left out.</param>
    /// <param name="wanted">Which licks are of interest; null for all.</param>
    public static ImmutableArray<Spot> Of(
        StepGrid grid,
        ImmutableArray<LickFit> fits,
        int within,
        Predicate<Lick>? wanted = null
    ) =>
        [
            .. fits.Where(fit => fit.Price <= within && (wanted is null || wanted(fit.Place.Lick)))
                .GroupBy(fit => (fit.Place.Step, fit.Place.LastStep))
                .OrderBy(group => group.Key)
                .Select(group =>
                {
                    var (first, last) = (grid.Steps[group.Key.Step], grid.Steps[group.Key.LastStep]);
                    var ordered = group
                        .OrderBy(fit => fit.Price)
                        .ThenBy(fit => fit.Place.Lick.Name, StringComparer.Ordinal);
                    return new Spot(
                        first.Bar,
                        first.At,
                        last.At + last.Length - first.At,
                        first.Chord,
                        group.Count(),
                        [.. ordered.Take(Shown)]
                    );
                }),
        ];

    // What the path of today gets for being like its equals in the span of a lick, less what the lick gets for it.
    private static int Forfeited(Solver solver, LickPlace place)
    {
        int now = 0,
            then = 0;
        for (var i = 0; i < place.Path.Length; i++)
        {
            now += solver.Overlay.Consistency(place.Step + i, solver.Best.Path[place.Step + i]);
            then += solver.Overlay.Consistency(place.Step + i, place.Path[i]);
        }
        return then - now;
    }

    private static int PriceOf(Solver solver, Past past, LickEdge lick, int step, int states)
    {
        var last = lick.Place.LastStep;
        var width = solver.Lattice.Prices(last).Width;
        var after = solver.AfterAt(last);
        var best = Solver.Infinity;
        for (var r = 0; r < states; r++)
        {
            if (lick.Walk(r) is not { } walked)
                continue;
            var rest = lick.Cost + walked.Cost + after[(walked.State * width) + lick.LastShape];
            if (rest < Solver.Barrier)
                best = Math.Min(best, past.Into(lick, step, r) + rest);
        }
        return best;
    }
}
