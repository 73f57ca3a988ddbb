using Rollwright.Music.Metre;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>A pickup of one swung step, which sounds later than it is written.</summary>
public class SwungPickupTests
{
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void The_first_stroke_of_a_bar_sounds_where_the_bar_begins_for_the_band(int countIn)
    {
        var played = SampleBreaks.Small with
        {
            Swing = Swing.TwoToOne,
            Spans = [],
            Bars =
            [
                SampleBreaks.Bar("2.0I"),
                SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T 1.0M"),
                SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T"),
            ],
        };
        var timeline = Timeline.Of(played, new() { CountIn = countIn, TimesThrough = 2 });
        foreach (var bar in timeline.Bars.Where(bar => bar.Bar is 1 or 2))
            timeline
                .Strokes.Should()
                .Contain(stroke => Math.Abs(stroke.Seconds - bar.Seconds) < 1e-9, $"pass {bar.Pass}, bar {bar.Bar}");
    }

    [Fact]
    public void The_count_is_a_whole_bar_before_the_bar_that_the_pickup_leads_to()
    {
        var played = SampleBreaks.Small with
        {
            Swing = Swing.TwoToOne,
            Spans = [],
            Bars = [SampleBreaks.Bar("2.0I"), SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T 1.0M")],
        };
        var timeline = Timeline.Of(played, new() { CountIn = 1 });
        var bar = timeline.Bars.Single(one => one.Bar == 1);
        (bar.Seconds / timeline.SecondsPerWhole)
            .Should()
            .BeApproximately(2, 1e-9, "one bar is counted, one holds the pickup");
    }
}
