using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Reports;
using BenchmarkDotNet.Running;

namespace Rollwright.Bench.Columns;

/// <summary>A figure worked out from the mean time of a row.</summary>
internal abstract class FigureColumn(string name, string legend) : IColumn
{
    public string Id => GetType().Name;
    public string ColumnName => name;
    public string Legend => legend;
    public UnitType UnitType => UnitType.Dimensionless;
    public bool AlwaysShow => true;
    public ColumnCategory Category => ColumnCategory.Custom;
    public int PriorityInCategory => 0;
    public bool IsNumeric => true;

    public bool IsAvailable(Summary summary) => true;

    public bool IsDefault(Summary summary, BenchmarkCase benchmarkCase) => false;

    public string GetValue(Summary summary, BenchmarkCase benchmarkCase) =>
        summary[benchmarkCase]?.ResultStatistics is { } measured ? Of(measured.Mean, benchmarkCase) : "not measured";

    public string GetValue(Summary summary, BenchmarkCase benchmarkCase, SummaryStyle style) =>
        GetValue(summary, benchmarkCase);

    /// <param name="mean">Nanoseconds.</param>
    /// <param name="row">The row that it was measured for.</param>
    protected abstract string Of(double mean, BenchmarkCase row);
}
