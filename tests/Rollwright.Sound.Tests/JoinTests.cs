using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Forms;
using Rollwright.Sound.Band;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>Nobody hears where a loop begins again: what rings goes on, and the next pass is in time.</summary>
public class JoinTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_loop_sounds_as_if_it_were_written_out(bool hasPickup)
    {
        // The pickup's quarter is missing at the end, so that bars stay whole when it comes again.
        ImmutableArray<BreakBar> bars = hasPickup
            ? [SampleBreaks.Small.Bars[0], Plain(1), SampleBreaks.Bar("2.1T* 3.0I 1.2M 5.0T 2.1I* p0", null, "C G@4")]
            : [Plain(1), Plain(2)];
        var once = SampleBreaks.Small with { Bars = bars };
        var twice = once with { Bars = [.. bars, .. bars] };
        var options = new SynthOptions { Band = Ensemble.Accompanists, CountIn = 1 };
        var looped = Synth.Render(once, options with { TimesThrough = 2 });
        var written = Synth.Render(twice, options);
        looped.Frames.Should().Be(written.Frames);
        var largest = 0f;
        for (var i = 0; i < looped.Frames; i++)
            largest = Math.Max(largest, Math.Abs(looped.Interleaved[i] - written.Interleaved[i]));
        largest.Should().BeLessThan(1e-6f);
    }

    [Fact]
    public void A_pickup_over_a_full_last_bar_makes_no_click()
    {
        // The last bar's last quarter gives way to the pickup of the next pass; a stroke that is left out leaves no edge.
        var whole = SampleBreaks.Small with
        {
            Bars = [SampleBreaks.Small.Bars[0], Plain(1), Plain(2)],
        };
        var sound = Synth.Render(whole, new() { TimesThrough = 4 });
        var ordinary = Jumps(sound, 0.02, 3);
        var atJoins = Jumps(sound, 3 - 0.02, 12);
        atJoins.Should().BeLessThan(ordinary * 1.5f);
    }

    [Fact]
    public void The_end_fades_to_nothing()
    {
        var sound = Synth.Render(SampleBreaks.Small, new() { Band = Ensemble.Accompanists });
        Math.Abs(sound.Interleaved[^1]).Should().BeLessThan(1e-5f);
    }

    // The greatest step from a sample to the next.
    private static float Jumps(Audio.Samples sound, double from, double to)
    {
        var largest = 0f;
        for (var i = (int)(from * sound.Rate); i < (int)(to * sound.Rate); i++)
            largest = Math.Max(largest, Math.Abs(sound.Interleaved[i] - sound.Interleaved[i - 1]));
        return largest;
    }

    private static BreakBar Plain(int index) => SampleBreaks.Small.Bars[index] with { Marks = BarMarks.None };
}
