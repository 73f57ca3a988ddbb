using Rollwright.Audio;
using Rollwright.Audio.Wave;
using Rollwright.Music.Metre;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>The outside judge is aubioonset (Debian package aubio-tools), by the high-frequency content of 256 frames.</summary>
public class OnsetTests_Aubio
{
    [Theory]
    [InlineData(40)]
    [InlineData(80)]
    [InlineData(120)]
    public void Aubio_hears_every_pluck_at_its_written_time_and_nothing_else(double tempo)
    {
        var options = new SynthOptions { Tempo = new(new Fraction(1, 2), tempo) };
        var heard = Heard(Synth.Render(SampleBreaks.Small, options), 0.3);
        var strokes = Timeline.Of(SampleBreaks.Small, options).Strokes;
        var plucked = strokes.Where(item => item.Played.Stroke.Right is not null).Select(item => item.Seconds);
        foreach (var seconds in plucked.Distinct())
            heard.Should().Contain(at => Math.Abs(at - seconds) < 0.003, $"{seconds:0.000} s");
        // What is heard besides can only be a slur.
        foreach (var at in heard)
            strokes.Should().Contain(item => Math.Abs(item.Seconds - at) < 0.01, $"{at:0.000} s");
    }

    [Fact]
    public void Aubio_hears_the_whole_band_in_time()
    {
        // Click, bass, strums and banjo on their beats: whatever is on a quarter is heard there.
        var options = new SynthOptions
        {
            Band = ["bass", "guitar", "chop", "click"],
            CountIn = 1,
            TimesThrough = 2,
        };
        var heard = Heard(Synth.Render(SampleBreaks.Small, options), 0.3);
        var timeline = Timeline.Of(SampleBreaks.Small, options);
        var quarter = timeline.SecondsPerWhole / 4;
        var quarters = 0;
        for (var at = 0.0; at < timeline.Seconds - quarter; at += quarter)
        {
            // The count is in halves: its other quarters are silent.
            if (at < timeline.Lead && Math.Round(at / quarter) % 2 != 0)
                continue;
            quarters++;
            heard.Should().Contain(onset => Math.Abs(onset - at) < 0.005, $"{at:0.000} s");
        }
        quarters.Should().BeGreaterThan(90);
    }

    /// <summary>Seconds of all onsets.</summary>
    /// <param name="sound">One channel.</param>
    /// <param name="threshold">0.1 hears more, 1 less.</param>
    internal static List<double> Heard(Samples sound, double threshold)
    {
        var file = Path.GetTempFileName() + ".wav";
        try
        {
            File.WriteAllBytes(file, WavWriter.ToBytes(sound));
            var (code, text, error) = Outside.Run(
                "aubioonset",
                ["-i", file, "-B", "256", "-H", "64", "-O", "hfc", "-t", $"{threshold}", "-M", "0.03"]
            );
            code.Should().Be(0, error);
            return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(double.Parse)];
        }
        finally
        {
            File.Delete(file);
        }
    }
}
