using BenchmarkDotNet.Attributes;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Bench.Columns;
using Rollwright.Bench.Tunes;
using Rollwright.Music.Tunes;

namespace Rollwright.Bench;

/// <summary>One setting of a tune without repeats, ever longer: the time for a bar should not depend on how many there are.</summary>
[SimpleJob(warmupCount: 4, iterationCount: 7)]
[MemoryDiagnoser]
[WithColumn(typeof(PerBarColumn))]
public class GrowthBenchmarks
{
    private static readonly Style Style = LevelTable.Of(3).Apply(StyleTable.Roll);

    private Tune tune = null!;
    private Setting setting = null!;

    /// <summary>Written bars.</summary>
    [Params(16, 32, 64, 128, 256, 512)]
    public int Bars { get; set; }

    [GlobalSetup]
    public void Make()
    {
        tune = WalkTune.OfBars(Bars);
        // Open strings, G position, an octave below the fiddle: the same for every length.
        setting = new(TuningTable.OpenG, Capo: 0, tune.Key, Shift: -12);
        var grid = StepGrid.Lay(tune, setting);
        // Equal bars and repeats ask for further passes; then lengths would not be compared like with like.
        if (!EqualBars.Of(grid).IsEmpty || !grid.Tree.Seams.IsEmpty)
            throw new InvalidOperationException("Something repeats in a tune where nothing should.");
        if (!Solve().Best.IsPossible)
            throw new InvalidOperationException("The tune has no break in this setting; there is nothing to measure.");
    }

    [Benchmark]
    public Solver Solve()
    {
        var grid = StepGrid.Lay(tune, setting);
        return TuneSolver.Solve(StepLattice.Build(grid, setting, LevelTable.Of(3).Bounds, Style));
    }
}
