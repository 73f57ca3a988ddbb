using System.Collections.Immutable;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging;

/// <summary>First solutions of a tune in the settings that look best, one set a style; each is worked out once.</summary>
internal sealed class Drafts(Tune tune, ArrangeOptions options)
{
    private const int MostTried = 5;

    // Those who ask for advice want to compare.
    private const int LeastAdvised = 3;

    /// <summary>
    /// How much dearer than the best found so far a setting may look, a bar, to be solved too (assumption). The look is
    /// seldom wrong by more; see bench/README.md.
    /// </summary>
    private const int Doubt = 500;

    /// <summary>
    /// The level whose setting all levels take: a break grows on one fingering, so that who moves up need not start afresh.
    /// </summary>
    private const int SettingLevel = 3;

    private readonly LevelTable.Level level = LevelTable.Of(options.Level);
    private readonly Dictionary<string, ImmutableArray<Way>> known = [];

    /// <summary>A setting solved in a style.</summary>
    internal sealed record Way(SettingOffer Offer, Solver Draft)
    {
        public long Price => (long)Draft.Best.Total + Offer.Price;
    }

    /// <summary>The settings in which a style can be played, best first.</summary>
    public ImmutableArray<Way> Of(Style style)
    {
        if (!known.TryGetValue(style.Name, out var ways))
            known[style.Name] = ways = [
                .. Solved(SettingAdvice.For(tune, options, style).Take(MostTried), style, LeastAdvised)
                    .OrderBy(way => way.Price),
            ];
        return ways;
    }

    /// <summary>
    /// The best solution and what settings there are: those solved, best first, then those that look next best. The other
    /// solutions are let go at once, for they are large. Null where the style cannot be played in any.
    /// </summary>
    public (Way Best, ImmutableArray<SettingOffer> Settings)? BestOf(Style style)
    {
        if (options.Level == SettingLevel)
            return BestHere(style);
        var settled = new Drafts(tune, options with { Level = SettingLevel }).BestHere(style);
        if (settled is not var (found, settings))
            return BestHere(style);
        var way = new Way(found.Offer, Draft(tune, found.Offer.Setting, level, style, options.Licks));
        return way.Draft.Best.IsPossible ? (way, settings) : BestHere(style);
    }

    private (Way Best, ImmutableArray<SettingOffer> Settings)? BestHere(Style style)
    {
        Way? best = null;
        var offers = SettingAdvice.For(tune, options, style).Take(MostTried).ToArray();
        var prices = new Dictionary<SettingOffer, long>();
        foreach (var way in Solved(offers, style, 1))
        {
            prices[way.Offer] = way.Price;
            if (best is null || way.Price < best.Price)
                best = way;
        }
        return best is null
            ? null
            : (best, [.. offers.OrderBy(offer => prices.GetValueOrDefault(offer, long.MaxValue))]);
    }

    // The lattice decides between the settings that look best; what the first one costs says what the look is worth.
    private IEnumerable<Way> Solved(IEnumerable<SettingOffer> offers, Style style, int least)
    {
        long? best = null,
            dearer = null;
        foreach (var (rank, offer) in offers.Index())
        {
            if (rank >= least && offer.Ease + dearer > best + (Doubt * tune.Bars.Length))
                yield break;
            var way = new Way(offer, Draft(tune, offer.Setting, level, style, options.Licks));
            if (!way.Draft.Best.IsPossible)
                continue;
            dearer ??= way.Price - offer.Ease;
            best = Math.Min(best ?? long.MaxValue, way.Price);
            yield return way;
        }
    }

    /// <summary>The first solution in one setting.</summary>
    public static Solver Draft(Tune tune, Setting setting, LevelTable.Level level, Style style, LickIndex? licks = null)
    {
        var grid = StepGrid.Lay(tune, setting, style.FollowsTune);
        return Solver.Open(
            StepLattice.Build(grid, setting, level.Bounds, level.Apply(style), licks),
            new(grid.Steps.Length)
        );
    }
}
