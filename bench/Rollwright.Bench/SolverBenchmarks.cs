using BenchmarkDotNet.Attributes;
using Rollwright.Arranging;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Bench.Tunes;
using Rollwright.Music.Tunes;

namespace Rollwright.Bench;

/// <summary>The demo reel, warm: what a player waits for after changing an option.</summary>
[SimpleJob(warmupCount: 4, iterationCount: 7)]
[MemoryDiagnoser]
public class SolverBenchmarks
{
    private static readonly Style Style = LevelTable.Of(3).Apply(StyleTable.Roll);

    private Tune tune = null!;
    private Setting setting = null!;

    [GlobalSetup]
    public void Read()
    {
        tune = DemoTune.Read();
        setting = SettingAdvice.For(tune, ArrangeOptions.Default, StyleTable.Roll)[0].Setting;
    }

    /// <summary>Lattice and exact path for the setting that looks best.</summary>
    [Benchmark]
    public Solver OneSetting()
    {
        var grid = StepGrid.Lay(tune, setting);
        return TuneSolver.Solve(StepLattice.Build(grid, setting, LevelTable.Of(3).Bounds, Style));
    }

    /// <summary>From the tune to the break: every setting that is tried, and the break put together.</summary>
    [Benchmark]
    public Arrangement WholeArrangement() => Arranger.Arrange(tune);
}
