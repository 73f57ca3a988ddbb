using BenchmarkDotNet.Running;

namespace Rollwright.Bench.Columns;

/// <summary>Mean time divided by the number of written bars: level where the time grows as the tune does.</summary>
internal sealed class PerBarColumn()
    : FigureColumn("Per bar", "Mean divided by the number of written bars (microseconds)")
{
    protected override string Of(double mean, BenchmarkCase row) =>
        $"{mean / 1000 / (int)row.Parameters[nameof(GrowthBenchmarks.Bars)]:F1} us";
}
