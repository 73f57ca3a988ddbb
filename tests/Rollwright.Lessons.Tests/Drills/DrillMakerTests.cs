using Rollwright.Arranging;
using Rollwright.Banjo.Playability;
using Rollwright.Lessons.Drills;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Drills;

public class DrillMakerTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(5)]
    public void Hands_can_play_every_drill_of_every_tune(int level)
    {
        var spots = 0;
        foreach (var made in SharedBreaks.Made(new() { Level = level }, 0, 1))
        {
            var drills = DrillMaker.Of(made.Break, made);
            drills.Should().Contain(drill => drill.Kind == DrillKind.RollAlone, made.Break.Title);
            drills.Should().Contain(drill => drill.Kind == DrillKind.HardBar, made.Break.Title);
            drills.Should().OnlyHaveUniqueItems(drill => drill.Kind);
            foreach (var take in drills.SelectMany(drill => drill.Takes))
                Checker.Check(take.Played).Should().BeEmpty(take.Played.Title);
            spots += drills.Count(drill => drill.Kind == DrillKind.Spot);
        }
        spots.Should().BePositive();
    }

    [Fact]
    public void The_hard_bar_is_at_half_the_tempo_and_the_slur_is_one_of_the_break()
    {
        var drills = DrillMaker.Of(SampleBreaks.Small);
        drills
            .Single(drill => drill.Kind == DrillKind.HardBar)
            .Takes[0]
            .Played.Tempo.PerMinute.Should()
            .Be(SampleBreaks.Small.Tempo.PerMinute / 2);
        var slur = drills.Single(drill => drill.Kind == DrillKind.SlurAlone).Takes[0].Played;
        var own = SampleBreaks.Small.Bars.SelectMany(bar => bar.Strokes).Where(stroke => stroke.Slur is not null);
        slur.Bars.SelectMany(bar => bar.Strokes)
            .Where(stroke => stroke.Slur is not null)
            .Select(stroke => (stroke.Slur, stroke.String, stroke.Fret))
            .Should()
            .NotBeEmpty()
            .And.BeSubsetOf(own.Select(stroke => (stroke.Slur, stroke.String, stroke.Fret)));
    }

    [Fact]
    public void A_spot_has_three_different_licks()
    {
        var made = SharedBreaks.Made(ArrangeOptions.Default, 0, 1);
        foreach (
            var spot in made.SelectMany(one => DrillMaker.Of(one.Break, one)).Where(one => one.Kind == DrillKind.Spot)
        )
            spot.Takes.Select(take => string.Join(' ', take.Played.Bars[0].Strokes)).Distinct().Should().HaveCount(3);
    }
}
