using BenchmarkDotNet.Running;

namespace Rollwright.Bench.Columns;

/// <summary>Seconds of sound for each second of work.</summary>
internal sealed class RealTimeColumn()
    : FigureColumn("Real time", "Length of the sound divided by the mean time it takes to make")
{
    private readonly Lazy<double> seconds = new(() => SoundBenchmarks.Sound().Duration.TotalSeconds);

    protected override string Of(double mean, BenchmarkCase row) =>
        $"{seconds.Value / (mean / 1e9):F0} x ({seconds.Value:F1} s)";
}
