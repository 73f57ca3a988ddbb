using System.Collections.Immutable;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Assembling;
using Rollwright.Arranging.Chording;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging;

/// <summary>From a tune to a break: chords where they lack, the setting, the lattice, the exact path, the break.</summary>
public static class Arranger
{
    // The lattice decides between this many settings that look best.
    private const int SettingsTried = 3;

    private static readonly Tempo UsualTempo = new(new Fraction(1, 2), 80);

    /// <summary>The best break of a tune.</summary>
    /// <exception cref="ArrangeException">The tune has no notes, or none that the banjo has in any setting asked for.</exception>
    public static Arrangement Arrange(Tune tune, ArrangeOptions? options = null)
    {
        options ??= ArrangeOptions.Default;
        if (tune.Bars.All(bar => bar.Notes.IsEmpty))
            throw new ArrangeException($"'{tune.Title}' has no notes; write its melody, then arrange it.");
        var chorded = tune.HasChords ? tune : ChordFinder.WithChords(tune);
        var offers = SettingAdvice.For(chorded, options);
        if (offers.IsEmpty)
            throw new ArrangeException(
                $"The notes of '{tune.Title}' do not lie on a banjo in this setting; choose another key, tuning or capo."
            );
        var level = LevelTable.Of(options.Level);
        var style = level.Apply(options.Style);
        var tried = offers
            .Take(SettingsTried)
            .Select(offer => (Offer: offer, Draft: Draft(chorded, offer.Setting, level.Bounds, style)))
            .Where(way => way.Draft.Best.IsPossible)
            .OrderBy(way => way.Draft.Best.Total + way.Offer.Price)
            .ToArray();
        if (tried.Length == 0)
            throw new ArrangeException(
                $"No way to play '{tune.Title}' was found in this setting; choose another key, tuning or capo."
            );
        var solver = TuneSolver.Finish(tried[0].Draft);
        ImmutableArray<SettingOffer> ordered =
        [
            .. tried.Select(way => way.Offer),
            .. offers.Where(offer => tried.All(way => way.Offer != offer)),
        ];
        return new(chorded, tune.Tempo ?? TempoFor(tune.Time), solver, ordered, !tune.HasChords, []);
    }

    private static Solver Draft(Tune tune, Setting setting, LeftBounds bounds, Style style)
    {
        var grid = StepGrid.Lay(tune, setting, style.FollowsTune);
        return Solver.Open(StepLattice.Build(grid, setting, bounds, style), new(grid.Steps.Length));
    }

    // A tempo to learn and to play along at, with the unit that its metre is counted in (common practice, no source).
    private static Tempo TempoFor(TimeSignature time) =>
        time.IsCompound ? new(time.Beat, 90)
        : time.Beats == 3 ? new(new Fraction(1, 4), 120)
        : time is { Beats: 2, Unit: 4 } ? new(new Fraction(1, 4), 80)
        : UsualTempo;
}
