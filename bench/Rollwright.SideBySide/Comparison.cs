using System.Collections.Immutable;
using System.Diagnostics;
using System.Text.Json;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Png;
using Rollwright.Engraving.Svg;
using Rollwright.Formats.Abc;
using Rollwright.Formats.MusicXml;

namespace Rollwright.SideBySide;

/// <summary>The same breaks drawn by us and by the notation library, timed in one run, and both pictured.</summary>
internal static class Comparison
{
    private const int Rounds = 8;
    private const int Warm = 3;

    // The paper, and the same signs on it: the other side is not asked for a title's font or a legend.
    private static readonly PageStyle Page = PageStyle.A4 with
    {
        Height = null,
        ShowLegend = false,
        ShowMelody = false,
    };

    public static async Task<int> Run(string folder, int pictured, string[] files)
    {
        ImmutableArray<Break> breaks =
        [
            .. files
                .SelectMany(file => AbcReader.Read(File.ReadAllBytes(file), file).Tunes)
                .Select(tune => Arranger.Arrange(tune).Break),
        ];
        var ours = Times(breaks);
        Directory.CreateDirectory(folder);
        File.WriteAllBytes(
            Path.Combine(folder, "ours.png"),
            PngWriter.Write(Engraver.Lay(breaks[pictured], Page), dpi: 110)
        );
        var xml = JsonSerializer.Serialize(breaks.Select(one => MusicXmlWriter.Write(one)));
        using var site = new Site(xml);
        var answer = await site.Measure();
        await site.Picture(pictured, Path.Combine(folder, "library.png"));
        foreach (var fault in answer.Faults)
            Console.WriteLine($"not drawn by the library: {fault}");
        var both = ours.Zip(answer.Times).Where(pair => pair.Second is not null).ToList();
        if (both.Count == 0)
            return 1;
        Console.WriteLine($"{both.Count} breaks on one long page each, median of {Rounds - Warm} rounds after {Warm}");
        Console.WriteLine("| who | median, ms a page | 95 of 100 within | pages a second |\n| --- | --- | --- | --- |");
        Console.WriteLine(Row("ours: laid out and written as SVG text", [.. both.Select(pair => pair.First)]));
        Console.WriteLine(
            Row("the library: drawn as SVG in the browser", [.. both.Select(pair => pair.Second!.Value)])
        );
        var ratios = both.Select(pair => pair.Second!.Value / pair.First).Order().ToList();
        Console.WriteLine($"the library takes {ratios[ratios.Count / 2]:0.0} times as long (median of the tunes)");
        return 0;
    }

    private static double[] Times(ImmutableArray<Break> breaks)
    {
        var times = breaks.Select(_ => new List<double>()).ToArray();
        for (var round = 0; round < Rounds; round++)
        {
            for (var i = 0; i < breaks.Length; i++)
            {
                var start = Stopwatch.GetTimestamp();
                _ = SvgWriter.Write(Engraver.Lay(breaks[i], Page));
                if (round >= Warm)
                    times[i].Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
        }
        return [.. times.Select(of => of.Order().ElementAt(of.Count / 2))];
    }

    private static string Row(string who, double[] times)
    {
        Array.Sort(times);
        var within = times[(int)Math.Ceiling(times.Length * 0.95) - 1];
        return $"| {who} | {times[times.Length / 2]:0.00} | {within:0.00} | {1000 * times.Length / times.Sum():0} |";
    }
}
