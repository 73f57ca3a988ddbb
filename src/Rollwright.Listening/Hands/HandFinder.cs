using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Fingering;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Listening.Rhythm;
using Rollwright.Listening.Takes;
using Moment = Rollwright.Listening.Takes.Moment;

namespace Rollwright.Listening.Hands;

/// <summary>
/// Which hands have played it: the same lattice that arranges, with what was heard in the place of the tune. What comes
/// out is playable, and as usual as the sound allows.
/// </summary>
internal static class HandFinder
{
    // Slower than this, hands need not roll: whichever finger plucks has the time to pluck again at the next step.
    private static readonly double Unhurried = Enum.GetValues<RightFinger>().Max(HandTimes.Usual.Again);

    // Hands that are listened to go wherever the notes are: a note may lie on any of the four long strings.
    private static readonly Style Slow = new(
        "played",
        [new Manner("played", Weights.Columns["played"])],
        followsTune: true,
        placesANote: 4
    );

    private static readonly Style Rolling = Slow.With(weights => weights.With(Term.FingerTwice, 0));

    // Whole bars of a roll tell where bars begin; which fingers played, the single strings tell better.
    private static readonly Style Barred = Rolling.With(weights =>
        weights.With(Term.RollBroken, (int)ListeningTable.Of("bar-roll"))
    );

    /// <param name="layout">What was heard, in bars.</param>
    /// <param name="setting">Tuning and capo that were played in; no shift.</param>
    /// <param name="step">How long a step lasted, in seconds.</param>
    /// <returns>The cheapest path; not possible where hands cannot do anything like it.</returns>
    public static Solver Solve(Layout layout, Setting setting, double step) =>
        Solve(layout, setting, step < Unhurried ? Rolling : Slow);

    /// <summary>What the layout's bars cost hands: the least where they begin as they were played.</summary>
    public static int BarPrice(Layout layout, Setting setting) => Solve(layout, setting, Barred).Best.Total;

    private static Solver Solve(Layout layout, Setting setting, Style style)
    {
        var grid = StepGrid.Lay(layout.Tune, setting, followsTune: true);
        var bounds = LevelTable.Of(LevelTable.Highest).Bounds with { LickLevel = 0, Slurs = true };
        var lattice = StepLattice.Build(grid, setting, bounds, style);
        var overlay = new Overlay(grid.Steps.Length);
        var at = layout.Moments.ToDictionary(laid => (laid.Bar, laid.At), laid => laid.Moment);
        for (var step = 0; step < grid.Steps.Length; step++)
        {
            if (at.TryGetValue((grid.Steps[step].Bar, grid.Steps[step].At), out var moment))
                overlay.Wish(step, Wish(moment, setting));
            else
                overlay.Add(new KeysLock(step, [], setting.Tuning));
        }
        return Solver.Open(lattice, overlay);
    }

    private static HeardWish Wish(Moment moment, Setting setting)
    {
        var unit = ListeningTable.Of("evidence");
        // Half a pluck's attack says nothing either way.
        var attack = ListeningTable.Of("attack") * ((2 * moment.Attack) - 1);
        return new(
            [
                .. moment.Ways.Select(way =>
                    (way.Keys.Select(key => key - setting.Capo).ToImmutableArray(), (int)(unit * way.Cost))
                ),
            ],
            (int)ListeningTable.Of("no-notes"),
            (int)ListeningTable.Of("other-notes"),
            (int)Math.Max(0, attack),
            (int)Math.Max(0, -attack),
            [.. moment.Strings.Select((on, i) => (moment.Keys[i] - setting.Capo, on))],
            (int)ListeningTable.Of("other-string"),
            setting.Tuning
        );
    }
}
