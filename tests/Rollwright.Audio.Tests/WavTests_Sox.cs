using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Audio.Tests;

/// <summary>The outside judge is sox (Debian package sox), a general-purpose program for sound files.</summary>
public class WavTests_Sox
{
    [Theory]
    [InlineData(WavEncoding.Pcm16, "16-bit Signed Integer PCM")]
    [InlineData(WavEncoding.Pcm24, "24-bit Signed Integer PCM")]
    [InlineData(WavEncoding.Float32, "32-bit Floating Point PCM")]
    public void Sox_reads_our_files_as_what_they_are(WavEncoding encoding, string named)
    {
        var file = Path.GetTempFileName() + ".wav";
        try
        {
            File.WriteAllBytes(file, WavWriter.ToBytes(Ramp(2), encoding));
            var (code, text, error) = Outside.Run("sox", "--i", file);
            code.Should().Be(0, error);
            text.Should().Contain(named).And.Contain("Channels       : 2").And.Contain("= 1001 samples");
            error.Should().BeEmpty();
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Theory]
    // Half a step of 8 bits (0.004), and sox counts full scale as 128 where we count 127 (0.008).
    [InlineData("unsigned-integer", 8, 0.012)]
    [InlineData("signed-integer", 16, 0.0001)]
    [InlineData("signed-integer", 24, 0.000001)]
    [InlineData("signed-integer", 32, 0.000001)]
    [InlineData("floating-point", 32, 0.000001)]
    public void We_read_what_sox_writes(string encoding, int bits, double tolerance)
    {
        var ours = Path.GetTempFileName();
        var theirs = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(ours, WavWriter.ToBytes(Ramp(2), WavEncoding.Float32));
            var (code, _, error) = Outside.Run(
                "sox",
                ["-D", "-t", "wav", ours, "-t", "wav", "-e", encoding, "-b", $"{bits}", theirs]
            );
            code.Should().Be(0, error);
            var back = WavReader.Read(File.ReadAllBytes(theirs));
            back.Frames.Should().Be(1001);
            for (var i = 0; i < back.Interleaved.Length; i++)
                ((double)back.Interleaved[i]).Should().BeApproximately(Ramp(2).Interleaved[i], tolerance);
        }
        finally
        {
            File.Delete(ours);
            File.Delete(theirs);
        }
    }

    private static Samples Ramp(int channels) =>
        new(44_100, channels, [.. Enumerable.Range(0, 1001 * channels).Select(i => ((i % 901) / 500f) - 0.9f)]);
}
