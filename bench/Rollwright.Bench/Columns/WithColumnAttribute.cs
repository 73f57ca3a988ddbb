using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;

namespace Rollwright.Bench.Columns;

/// <summary>Adds one column to the table of a class of benchmarks.</summary>
[AttributeUsage(AttributeTargets.Class)]
internal sealed class WithColumnAttribute(Type column) : Attribute, IConfigSource
{
    public Type Column => column;

    public IConfig Config { get; } = ManualConfig.CreateEmpty().AddColumn((IColumn)Activator.CreateInstance(column)!);
}
