using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Fingering;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Listening.Hands;

/// <summary>
/// Which hands have played it: the same lattice that arranges, with what was heard in the place of the tune. What comes
/// out is playable, and as usual as the sound allows.
/// </summary>
internal static class HandFinder
{
    private static readonly Lazy<Style> Played = new(() =>
    {
        var w = Weights.Columns["roll"];
        foreach (var one in (Environment.GetEnvironmentVariable("TWK") ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries))
            w = w.With(Enum.Parse<Term>(one.Split('=')[0]), int.Parse(one.Split('=')[1]));
        return new Style("played", [new Manner("played", w)], followsTune: true, placesANote: 4);
    });

    /// <param name="tune">The bars with the likeliest notes, at their sounding pitch.</param>
    /// <param name="moments">What was heard in them.</param>
    /// <param name="setting">Tuning and capo that were played in; no shift.</param>
    /// <returns>The cheapest path; not possible where hands cannot do anything like it.</returns>
    public static Solver Solve(Tune tune, IReadOnlyList<LaidMoment> moments, Setting setting)
    {
        var grid = StepGrid.Lay(tune, setting, followsTune: true);
        var bounds = LevelTable.Of(LevelTable.Highest).Bounds with { LickLevel = 0, Slurs = true };
        var lattice = StepLattice.Build(grid, setting, bounds, Played.Value);
        var overlay = new Overlay(grid.Steps.Length);
        var at = moments.ToDictionary(moment => (moment.Bar, moment.At), moment => moment.Moment);
        for (var step = 0; step < grid.Steps.Length; step++)
        {
            if (at.TryGetValue((grid.Steps[step].Bar, grid.Steps[step].At), out var moment))
                overlay.Wish(step, Wish(moment, setting));
            else
                overlay.Add(new KeysLock(step, [], setting.Tuning));
        }
        return Solver.Open(lattice, overlay);
    }

    private static HeardWish Wish(Takes.Moment moment, Setting setting)
    {
        var unit = ListeningTable.Of("evidence");
        var otherwise = (int)ListeningTable.Of("other-notes");
        // A beginning as strong as half a pluck says nothing.
        var attack = ListeningTable.Of("attack") * ((2 * Math.Clamp(moment.Attack, 0, 1)) - 1);
        return new(
            [
                .. moment.Ways.Select(way =>
                    (way.Keys.Select(key => key - setting.Capo).ToImmutableArray(), (int)(unit * way.Cost))
                ),
            ],
            otherwise,
            (int)Math.Max(0, attack),
            (int)Math.Max(0, -attack),
            setting.Tuning
        );
    }
}
