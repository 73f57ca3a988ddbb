using System.Collections.Immutable;
using Rollwright.Arranging.Assembling;
using Rollwright.Arranging.Chording;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Fingering;

/// <summary>
/// Strings and fingers for notes that are given: the same lattice, every note a must, nothing added. What hands cannot
/// play is left out and named.
/// </summary>
public static class Fingerer
{
    // Dearer than any way of the hands: a note is left out only where there is none.
    private const int NotePrice = 200_000;

    /// <summary>From this share of short gaps on the hands are taken to go at the speed of those (assumption).</summary>
    private const double ManyShortGaps = 0.25;

    /// <param name="tune">The notes; those at the same time are a pinch. </param>
    /// <param name="options">Tuning, capo and level; the key stays as it is.</param>
    /// <param name="octaves">Octaves up (positive) or down from the pitch given.</param>
    /// <exception cref="ArrangeException">There are no notes, or none that lie on the banjo.</exception>
    public static Fingered Finger(Tune tune, ArrangeOptions? options = null, int octaves = 0)
    {
        options ??= ArrangeOptions.Default;
        if (tune.Bars.All(bar => bar.Notes.IsEmpty))
            throw new ArrangeException($"'{tune.Title}' has no notes; there is nothing to finger.");
        if (!tune.IsKeyGiven)
            tune = KeyFinder.WithKey(tune);
        var level = LevelTable.Of(options.Level);
        var style = level
            .Apply(StyleTable.Find("melodic")!)
            .With(weights => weights.With(Costs.Term.OutOfRoll, 0).With(Costs.Term.StepSilent, 0));
        var capo = options.Capo ?? 0;
        var setting = new Setting(options.Tuning ?? TuningTable.OpenG, capo, tune.Key.Transpose(-capo), 12 * octaves);
        var solver = Solve(tune, setting, style, level);
        var left = LeftOut(tune, setting, solver);
        if (left.Length == tune.Bars.Sum(bar => bar.Notes.Count(note => !note.TiedFromBefore)))
            throw new ArrangeException(
                $"None of the notes of '{tune.Title}' lies on a banjo in this tuning and capo; choose others, or another octave."
            );
        var made = BreakAssembly.Assemble(
            tune,
            solver.Lattice,
            solver.Best,
            tune.Tempo ?? Arranger.TempoFor(tune.Time)
        );
        return new(made, left);
    }

    private static Solver Solve(Tune tune, Setting setting, Style style, LevelTable.Level level)
    {
        var grid = StepGrid.Lay(tune, setting, followsTune: true, isFine: IsFine(tune));
        var lattice = StepLattice.Build(grid, setting, level.Bounds with { LickLevel = 0, Slurs = true }, style);
        var overlay = new Overlay(grid.Steps.Length);
        for (var step = 0; step < grid.Steps.Length; step++)
        {
            var place = grid.Steps[step];
            ImmutableArray<int> keys = place.Onset is { } key ? place.Also.Insert(0, key) : [];
            overlay.Add(new KeysLock(step, keys, setting.Tuning));
            if (!keys.IsEmpty)
                overlay.Wish(step, new Overlay.Wanted(keys, setting.Tuning, NotePrice));
        }
        return TuneSolver.Finish(Solver.Open(lattice, overlay));
    }

    private static bool IsFine(Tune tune)
    {
        int gaps = 0,
            shorter = 0;
        foreach (var bar in tune.Bars)
        {
            var times = bar.Notes.Select(note => note.At).Distinct().ToArray();
            for (var i = 1; i < times.Length; i++)
            {
                gaps++;
                shorter += times[i] - times[i - 1] < bar.Time.Step ? 1 : 0;
            }
        }
        return shorter > ManyShortGaps * gaps;
    }

    private static ImmutableArray<Fingered.LeftOut> LeftOut(Tune tune, Setting setting, Solver solver)
    {
        var left = ImmutableArray.CreateBuilder<Fingered.LeftOut>();
        var grid = solver.Lattice.Grid;
        for (var bar = 0; bar < tune.Bars.Length; bar++)
        {
            foreach (var note in tune.Bars[bar].Notes.Where(note => !note.TiedFromBefore))
            {
                var key = note.Pitch.Midi + setting.Shift - setting.Capo;
                if (StepAt(grid, bar, note.At) is { } step && solver.Best.Path[step].Sounds(key, setting.Tuning))
                    continue;
                left.Add(new(bar, note.At, note.Pitch, Why(setting, solver.Lattice.Bounds, key)));
            }
        }
        return left.ToImmutable();
    }

    private static int? StepAt(StepGrid grid, int bar, Fraction at)
    {
        for (var step = grid.FirstOf(bar); step < grid.Bars[bar].End.Value; step++)
        {
            if (grid.Steps[step].At == at)
                return step;
        }
        return null;
    }

    private static string Why(Setting setting, LeftBounds bounds, int key)
    {
        var places = Enumerable
            .Range(1, 4)
            .Select(s => key - setting.Tuning.OpenOf(s))
            .Where(fret => fret >= 0)
            .ToArray();
        if (places.Length == 0)
            return "lower than the lowest string";
        return places.Min() > Math.Min(bounds.HighestFret, setting.LastFret)
            ? $"higher than fret {Math.Min(bounds.HighestFret, setting.LastFret)}"
            : "no finger or string is free for it at that moment";
    }
}
