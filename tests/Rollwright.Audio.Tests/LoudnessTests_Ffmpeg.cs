using Rollwright.Audio.Loudness;
using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Audio.Tests;

/// <summary>The outside judge is the ebur128 filter of ffmpeg (Debian package ffmpeg).</summary>
public class LoudnessTests_Ffmpeg
{
    [Theory]
    [InlineData(44_100, 1)]
    [InlineData(48_000, 2)]
    public void Loudness_and_peak_are_what_another_program_measures(int rate, int channels)
    {
        // Decaying bursts of noise and tone at several levels, with gaps: what gates must sort out.
        var chance = new Random(7);
        var values = new float[rate * 12 * channels];
        for (var frame = 0; frame < values.Length / channels; frame++)
        {
            var second = frame / rate;
            var within = (double)(frame % rate) / rate;
            var level = Math.Pow(10, -(second * 4 % 35) / 20.0) * Math.Exp(-within * 3) * 0.8;
            for (var channel = 0; channel < channels; channel++)
            {
                var tone = Math.Sin(2 * Math.PI * (200 + (300 * second)) * frame / rate);
                values[(frame * channels) + channel] = (float)(level * ((0.7 * tone) + (0.3 * chance.NextDouble())));
            }
        }
        var sound = new Samples(rate, channels, values);
        var file = Path.GetTempFileName() + ".wav";
        try
        {
            File.WriteAllBytes(file, WavWriter.ToBytes(sound, WavEncoding.Float32));
            var (code, _, error) = Outside.Run(
                "ffmpeg",
                ["-hide_banner", "-nostats", "-i", file, "-af", "ebur128=peak=true", "-f", "null", "-"]
            );
            code.Should().Be(0, error);
            IntegratedLoudness.Of(sound).Should().BeApproximately(Last("I", error), 0.1);
            // ffmpeg oversamples by another filter; both may be off by some tenths (EBU Tech 3341 allows +0.2, −0.4).
            (20 * Math.Log10(TruePeak.Of(sound)))
                .Should()
                .BeApproximately(Last("Peak", error), 0.3);
        }
        finally
        {
            File.Delete(file);
        }
    }

    // "    I:         -23.0 LUFS": of the running reports the last is the whole's.
    private static double Last(string name, string text)
    {
        var line = text.Split('\n').Last(line => line.TrimStart().StartsWith(name + ":", StringComparison.Ordinal));
        return double.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1]);
    }
}
