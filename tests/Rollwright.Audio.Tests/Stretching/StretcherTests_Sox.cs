using Rollwright.Audio.Stretching;
using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Audio.Tests.Stretching;

/// <summary>Beside another program's stretching: sox (Debian package sox), its effect <c>tempo</c> with the setting for music.</summary>
public class StretcherTests_Sox
{
    [Theory]
    [InlineData(0.9)]
    [InlineData(0.6)]
    [InlineData(1.25)]
    public void As_long_as_sox_makes_it_and_struck_at_the_same_times(double speed)
    {
        var (sound, starts) = Sounds.RingingNotes();
        var ours = Stretcher.Stretch(sound, 1 / speed);
        var theirs = SlowedBySox(sound, speed);
        ((double)ours.Frames / theirs.Frames).Should().BeApproximately(1, 0.01);
        var (one, other) = (Sounds.Onsets(ours.Channel(0)), Sounds.Onsets(theirs.Channel(0)));
        var expected = starts.Select(at => at / speed).ToArray();
        foreach (var at in expected)
        {
            // sox keeps no attack in its place: what it moves, up to half its segment of 82 ms, is not held against it here.
            one.Should().Contain(onset => Math.Abs(onset - at) < 0.008, $"{at:0.000} s, ours");
            other.Should().Contain(onset => Math.Abs(onset - at) < 0.06, $"{at:0.000} s, sox");
        }
        one.Should().HaveCount(expected.Length);
    }

    [Theory]
    [InlineData(0.6)]
    [InlineData(1.25)]
    public void As_high_as_sox_makes_it(double speed)
    {
        var tone = new Samples(
            44_100,
            1,
            [.. Enumerable.Range(0, 88_200).Select(i => (float)(0.5 * Math.Sin(2 * Math.PI * 293.66 * i / 44_100)))]
        );
        var ours = Sounds.Pitch(Stretcher.Stretch(tone, 1 / speed).Channel(0)[4_000..^4_000]);
        var theirs = Sounds.Pitch(SlowedBySox(tone, speed).Channel(0)[4_000..^4_000]);
        (1_200 * Math.Log2(ours / theirs)).Should().BeInRange(-3, 3);
    }

    private static Samples SlowedBySox(Samples sound, double speed)
    {
        var (ours, theirs) = (Path.GetTempFileName(), Path.GetTempFileName());
        try
        {
            File.WriteAllBytes(ours, WavWriter.ToBytes(sound, WavEncoding.Float32));
            var (code, _, error) = Outside.Run(
                "sox",
                "-t",
                "wav",
                ours,
                "-t",
                "wav",
                "-e",
                "floating-point",
                "-b",
                "32",
                theirs,
                "tempo",
                "-m",
                $"{speed}"
            );
            code.Should().Be(0, error);
            return WavReader.Read(File.ReadAllBytes(theirs));
        }
        finally
        {
            File.Delete(ours);
            File.Delete(theirs);
        }
    }
}
