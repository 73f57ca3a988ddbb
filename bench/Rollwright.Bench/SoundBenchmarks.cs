using BenchmarkDotNet.Attributes;
using Rollwright.Audio;
using Rollwright.Banjo.Breaks;
using Rollwright.Bench.Columns;
using Rollwright.Bench.Tunes;
using Rollwright.Sound;
using Rollwright.Sound.Band;

namespace Rollwright.Bench;

/// <summary>The demo reel's break sounded once with all repeats, in its own tempo, one channel.</summary>
[SimpleJob(warmupCount: 4, iterationCount: 7)]
[MemoryDiagnoser]
[WithColumn(typeof(RealTimeColumn))]
public class SoundBenchmarks
{
    private Break played = null!;

    [GlobalSetup]
    public void Arrange() => played = DemoTune.Arrange();

    [Benchmark]
    public Samples Render() => Synth.Render(played);

    /// <summary>The same with bass, guitar, chop and click, two channels.</summary>
    [Benchmark]
    public Samples RenderWithBand() => Synth.Render(played, new() { Band = Ensemble.Accompanists, Stereo = true });

    /// <summary>The sound that is measured, made once: its length is the real time of the table.</summary>
    internal static Samples Sound() => Synth.Render(DemoTune.Arrange());
}
