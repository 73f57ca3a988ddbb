using Rollwright.Arranging;
using Rollwright.Banjo.Playability;
using Rollwright.Lessons.Drills;
using Rollwright.Lessons.Words;
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
    public void What_is_hard_over_a_bar_line_is_drilled_with_both_bars()
    {
        var both = 0;
        foreach (var made in SharedBreaks.Made(ArrangeOptions.Default, 0, 1))
        {
            var drill = DrillMaker.Of(made.Break).Single(one => one.Kind == DrillKind.HardBar);
            var isBoth = drill.Words.StartsWith("From the end of ", StringComparison.Ordinal);
            drill.Takes[0].Played.Bars.Should().HaveCount(isBoth ? 2 : 1, made.Break.Title);
            both += isBoth ? 1 : 0;
        }
        both.Should().BePositive();
    }

    [Fact]
    public void The_shape_drill_strikes_every_string_that_is_held_and_no_finger_that_is_not()
    {
        var drilled = 0;
        foreach (var made in SharedBreaks.Made(ArrangeOptions.Default, 0, 1))
        {
            if (ShapeChange.Of(made.Break) is not { } drill)
                continue;
            drilled++;
            var own = made.Break.Bars.SelectMany(bar => bar.Strokes).Select(Place).ToHashSet();
            var bars = drill.Takes[0].Played.Bars;
            bars.SelectMany(bar => bar.Strokes).Where(stroke => stroke.Fret > 0).Select(Place).Should().BeSubsetOf(own);
            bars.Should()
                .OnlyContain(bar =>
                    bar.Strokes.Select(stroke => stroke.String).Distinct().Count() == bar.Strokes.Length
                );
            bars.Max(bar => bar.Strokes.Count(stroke => stroke.Fret > 0)).Should().BeGreaterThan(1, made.Break.Title);
        }
        drilled.Should().BePositive();

        static (int, int, int?) Place(Banjo.Strokes.Stroke stroke) => (stroke.String, stroke.Fret, stroke.Left);
    }

    [Fact]
    public void Drills_speak_of_no_bar_by_number_and_of_no_chord_over_open_strings()
    {
        foreach (var made in SharedBreaks.Made(ArrangeOptions.Default, 3, 9))
        {
            foreach (var drill in DrillMaker.Of(made.Break, made))
            {
                var words = drill
                    .Takes.SelectMany(take => PhraseWords.OfExcerpt(take.Played))
                    .Select(said => said.Text(WordForm.Long));
                words.Should().OnlyContain(said => !said.Contains("bar 1", StringComparison.Ordinal));
                if (drill.Kind == DrillKind.RollAlone)
                    drill.Takes[0].Played.Bars.Should().OnlyContain(bar => bar.Chords.IsEmpty);
            }
        }
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
