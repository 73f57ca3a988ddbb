using Rollwright.Audio.Stretching;
using Rollwright.Audio.Tests.Reading;
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
    public void As_long_as_sox_makes_it_as_high_and_struck_at_the_same_times(double speed)
    {
        var sound = SoundFiles.Struck(44_100, 1, 4);
        var ours = Stretcher.Stretch(sound, 1 / speed);
        var theirs = SlowedBySox(sound, speed);
        ((double)ours.Frames / theirs.Frames).Should().BeApproximately(1, 0.01);
        var (one, other) = (Sounds.Onsets(ours.Channel(0)), Sounds.Onsets(theirs.Channel(0)));
        var expected = Enumerable.Range(0, 16).Select(i => i * 0.25 / speed).ToArray();
        foreach (var at in expected.Skip(1))
        {
            // sox keeps no attack in its place: what it moves, up to half its segment of 82 ms, is not held against it here.
            one.Should().Contain(onset => Math.Abs(onset - at) < 0.008, $"{at:0.000} s, ours");
            other.Should().Contain(onset => Math.Abs(onset - at) < 0.06, $"{at:0.000} s, sox");
        }
        one.Count.Should().BeLessThanOrEqualTo(expected.Length);
        foreach (var at in expected[1..^1])
        {
            var (ourPitch, theirPitch) = (PitchAfter(ours, at), PitchAfter(theirs, at));
            Math.Abs(1_200 * Math.Log2(ourPitch / theirPitch)).Should().BeLessThan(12, $"{at:0.000} s");
        }
    }

    // The middle of a note, away from both strokes.
    private static double PitchAfter(Samples sound, double at) =>
        Sounds.Pitch(sound.Channel(0)[(int)((at + 0.06) * 44_100)..(int)((at + 0.19) * 44_100)]);

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
