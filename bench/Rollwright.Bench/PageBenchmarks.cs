using BenchmarkDotNet.Attributes;
using Rollwright.Banjo.Breaks;
using Rollwright.Bench.Tunes;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Pdf;
using Rollwright.Engraving.Svg;

namespace Rollwright.Bench;

/// <summary>The demo reel's break on A4: laid out, then written from a layout that is there already.</summary>
[SimpleJob(warmupCount: 4, iterationCount: 7)]
[MemoryDiagnoser]
public class PageBenchmarks
{
    private Break played = null!;
    private Layout layout = null!;

    [GlobalSetup]
    public void Arrange()
    {
        played = DemoTune.Arrange();
        layout = Engraver.Lay(played, PageStyle.A4);
    }

    [Benchmark]
    public Layout Lay() => Engraver.Lay(played, PageStyle.A4);

    /// <summary>All pages.</summary>
    [Benchmark]
    public int Svg()
    {
        var written = 0;
        for (var page = 0; page < layout.Pages.Length; page++)
            written += SvgWriter.Write(layout, page).Length;
        return written;
    }

    [Benchmark]
    public byte[] Pdf() => PdfWriter.Write(layout);
}
