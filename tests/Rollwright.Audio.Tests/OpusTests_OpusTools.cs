using Rollwright.Audio.Opus;
using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Audio.Tests;

/// <summary>The outside judges are opusinfo and opusdec (Debian package opus-tools).</summary>
public class OpusTests_OpusTools
{
    [Theory]
    [InlineData(1, 0)]
    [InlineData(1, 1)]
    [InlineData(1, 959)]
    [InlineData(2, 960)]
    [InlineData(2, 48_000)]
    [InlineData(2, 150_001)]
    public void Files_are_valid_and_last_as_long_to_the_frame(int channels, int frames) =>
        Judged(
            Tones(channels, frames),
            (info, back) =>
            {
                info.Should().NotContainAny("WARNING", "Warning", "ERROR", "Error", "Negative", "corrupt");
                info.Should().Contain("TITLE=A Tune of Ours").And.Contain($"Channels: {channels}");
                back.Channels.Should().Be(channels);
                back.Frames.Should().Be(frames);
            }
        );

    [Fact]
    public void What_comes_back_is_what_went_in_but_for_the_coding()
    {
        var sound = Tones(2, 96_000);
        Judged(
            sound,
            (_, back) =>
            {
                double error = 0,
                    power = 0;
                for (var i = 0; i < sound.Interleaved.Length; i++)
                {
                    error += Math.Pow(back.Interleaved[i] - sound.Interleaved[i], 2);
                    power += Math.Pow(sound.Interleaved[i], 2);
                }
                // In time and of the same sign: noise of the coding at least 20 dB below.
                (10 * Math.Log10(power / error))
                    .Should()
                    .BeGreaterThan(20);
            }
        );
    }

    [Fact]
    public void Another_rate_is_refused() =>
        FluentActions
            .Invoking(() => OpusWriter.ToBytes(new(44_100, 1, new float[10])))
            .Should()
            .Throw<ArgumentException>()
            .WithMessage("*48000 frames a second*");

    private static void Judged(Samples sound, Action<string, Samples> judge)
    {
        var opus = Path.GetTempFileName() + ".opus";
        var wav = Path.GetTempFileName() + ".wav";
        try
        {
            File.WriteAllBytes(opus, OpusWriter.ToBytes(sound, "A Tune of Ours"));
            var (code, text, error) = Outside.Run("opusinfo", opus);
            code.Should().Be(0, error);
            var decoded = Outside.Run("opusdec", "--quiet", "--float", opus, wav);
            decoded.Code.Should().Be(0, decoded.Err);
            judge(text + error, WavReader.Read(File.ReadAllBytes(wav)));
        }
        finally
        {
            File.Delete(opus);
            File.Delete(wav);
        }
    }

    private static Samples Tones(int channels, int frames)
    {
        var values = new float[frames * channels];
        for (var i = 0; i < values.Length; i++)
        {
            var seconds = (double)(i / channels) / OpusWriter.Rate;
            values[i] = (float)(0.4 * Math.Sin(2 * Math.PI * (i % channels == 0 ? 440 : 587) * seconds));
        }
        return new(OpusWriter.Rate, channels, values);
    }
}
