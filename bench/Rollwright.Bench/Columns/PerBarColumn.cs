using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;

namespace Rollwright.Bench.Columns;

/// <summary>Mean time divided by the number of written bars: level where the time grows as the tune does.</summary>
internal sealed class PerBarColumn : IColumn
{
    public string Id => nameof(PerBarColumn);
    public string ColumnName => "Per bar";
    public string Legend => "Mean divided by the number of written bars (microseconds)";
    public UnitType UnitType => UnitType.Dimensionless;
    public bool AlwaysShow => true;
    public ColumnCategory Category => ColumnCategory.Custom;
    public int PriorityInCategory => 0;
    public bool IsNumeric => true;

    public bool IsAvailable(Summary summary) => true;

    public bool IsDefault(Summary summary, BenchmarkCase benchmarkCase) => false;

    public string GetValue(Summary summary, BenchmarkCase benchmarkCase) =>
        summary[benchmarkCase]?.ResultStatistics is { } measured
            ? $"{measured.Mean / 1000 / (int)benchmarkCase.Parameters[nameof(GrowthBenchmarks.Bars)]:F1} us"
            : "not measured";

    public string GetValue(Summary summary, BenchmarkCase benchmarkCase, SummaryStyle style) =>
        GetValue(summary, benchmarkCase);
}
