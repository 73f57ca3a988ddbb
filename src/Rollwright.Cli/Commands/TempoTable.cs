using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;

namespace Rollwright.Cli.Commands;

/// <summary>What <c>check --tempo</c> says: the tempo up to which each bar is comfortable, and why.</summary>
internal static class TempoTable
{
    public static void Print(string path, Break found)
    {
        var limit = TempoLimit.Of(found);
        var numbering = found.Numbering;
        var unit = found.Tempo.UnitName;
        Console.WriteLine($"{path}: comfortable tempo of each bar, in {unit}s a minute");
        foreach (var bar in limit.Bars)
        {
            var mark = limit.Limiting.Contains(bar.Bar) ? "<" : " ";
            Console.WriteLine(
                bar.PerMinute is { } tempo
                    ? $"bar {numbering[bar.Bar].Name, 3} {Math.Floor(tempo), 5:0} {mark} beat {numbering.Beat(bar.Bar, bar.At):0.##}: {bar.Words}"
                    : $"bar {numbering[bar.Bar].Name, 3}     -   nothing asks for time"
            );
        }
        if (limit.PerMinute is { } whole)
            Console.WriteLine(
                $"whole {Math.Floor(whole), 6:0}   limited by bar{(limit.Limiting.Length == 1 ? "" : "s")} "
                    + string.Join(", ", limit.Limiting.Select(bar => numbering[bar].Name))
            );
    }

    public static object AsJson(Break found)
    {
        var limit = TempoLimit.Of(found);
        var numbering = found.Numbering;
        return new
        {
            unit = limit.Unit.ToString(),
            perMinute = Rounded(limit.PerMinute),
            limiting = limit.Limiting.Select(bar => numbering[bar].Number),
            bars = limit.Bars.Select(bar => new
            {
                bar = numbering[bar.Bar].Number,
                written = bar.Bar,
                perMinute = Rounded(bar.PerMinute),
                beat = bar.PerMinute is null ? (double?)null : numbering.Beat(bar.Bar, bar.At),
                words = bar.Words,
            }),
        };
    }

    private static double? Rounded(double? tempo) => tempo is { } value ? Math.Floor(value * 10) / 10 : null;
}
