using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;

namespace Rollwright.Bench.Columns;

/// <summary>Seconds of sound for each second of work.</summary>
internal sealed class RealTimeColumn : IColumn
{
    private readonly Lazy<double> seconds = new(() => SoundBenchmarks.Sound().Duration.TotalSeconds);

    public string Id => nameof(RealTimeColumn);
    public string ColumnName => "Real time";
    public string Legend => "Length of the sound divided by the mean time it takes to make";
    public UnitType UnitType => UnitType.Dimensionless;
    public bool AlwaysShow => true;
    public ColumnCategory Category => ColumnCategory.Custom;
    public int PriorityInCategory => 0;
    public bool IsNumeric => true;

    public bool IsAvailable(Summary summary) => true;

    public bool IsDefault(Summary summary, BenchmarkCase benchmarkCase) => false;

    public string GetValue(Summary summary, BenchmarkCase benchmarkCase) =>
        summary[benchmarkCase]?.ResultStatistics is { } measured
            ? $"{seconds.Value / (measured.Mean / 1e9):F0} x ({seconds.Value:F1} s)"
            : "not measured";

    public string GetValue(Summary summary, BenchmarkCase benchmarkCase, SummaryStyle style) =>
        GetValue(summary, benchmarkCase);
}
