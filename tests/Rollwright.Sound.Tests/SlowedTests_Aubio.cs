using Rollwright.Audio.Stretching;
using Rollwright.Music.Metre;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>Our banjo slowed with its pitch kept; the outside judge is aubioonset (Debian package aubio-tools).</summary>
public class SlowedTests_Aubio
{
    [Theory]
    [InlineData(0.9)]
    [InlineData(0.75)]
    [InlineData(0.6)]
    [InlineData(0.4)]
    public void Aubio_hears_every_pluck_once_and_at_its_stretched_time(double speed)
    {
        var options = new SynthOptions { Tempo = new(new Fraction(1, 2), 100), Stereo = false };
        var sound = Synth.Render(SampleBreaks.Small, options);
        var heard = OnsetTests_Aubio.Heard(Stretcher.Stretch(sound, 1 / speed), 0.3);
        var strokes = Timeline.Of(SampleBreaks.Small, options).Strokes;
        var plucked = strokes
            .Where(item => item.Played.Stroke.Right is not null)
            .Select(item => item.Seconds / speed)
            .Distinct()
            .ToList();
        foreach (var seconds in plucked)
            heard
                .Where(at => Math.Abs(at - seconds) < 0.03)
                .Should()
                .ContainSingle($"{seconds:0.000} s")
                .Which.Should()
                .BeApproximately(seconds, 0.008);
        // In the last note's dying away, tens of decibels down, aubio hears beginnings that are none.
        foreach (var at in heard.Where(at => at < plucked[^1] + 0.1))
            strokes.Should().Contain(item => Math.Abs((item.Seconds / speed) - at) < 0.015, $"{at:0.000} s");
    }
}
