using Rollwright.Banjo.Playability;
using Rollwright.Lessons.Drills;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Drills;

public class RightHandAloneTests
{
    [Fact]
    public void The_same_plucks_at_the_same_times_on_open_strings()
    {
        var made = RightHandAlone.Of(SampleBreaks.Small);
        made.Played().Should().OnlyContain(stroke => stroke.Stroke.Fret == 0 && stroke.Stroke.Slur == null);
        made.Played()
            .Select(stroke => (stroke.At, stroke.Stroke.String, stroke.Stroke.Right))
            .Should()
            .Equal(
                SampleBreaks
                    .Small.Played()
                    .Where(stroke => stroke.Stroke.Right is not null)
                    .Select(stroke => (stroke.At, stroke.Stroke.String, stroke.Stroke.Right))
            );
    }

    [Fact]
    public void A_pluck_before_a_slur_lasts_until_the_next_pluck()
    {
        var bar = SampleBreaks.Bar("3.2T h4 5.0T 1.0M -");
        var made = RightHandAlone.Of(SampleBreaks.Small with { Bars = [bar] }).Bars[0];
        made.Strokes.Select(stroke => stroke.Length / bar.Time.Step)
            .Select(steps => steps.ToDouble())
            .Should()
            .Equal(2, 1, 2);
    }

    [Fact]
    public void Hands_that_can_play_a_tune_can_play_its_right_hand_alone()
    {
        foreach (var played in SharedBreaks.All())
            Checker.Check(RightHandAlone.Of(played)).Should().BeEmpty(played.Title);
    }
}
