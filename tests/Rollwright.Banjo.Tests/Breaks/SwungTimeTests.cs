using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Rollwright.TestKit;

namespace Rollwright.Banjo.Tests.Breaks;

public class SwungTimeTests
{
    [Fact]
    public void Swinging_keeps_the_order_of_everything_and_lets_nothing_fall_together() =>
        BreakGenerator.Breaks.Sample(made =>
        {
            var played = made with { Swing = Swing.TwoToOne };
            var time = SwungTime.Of(played);
            var written = played.Played().Select(stroke => stroke.At).Distinct().Order().ToList();
            written.Select(time.At).Should().BeInAscendingOrder().And.OnlyHaveUniqueItems();
        });

    [Fact]
    public void Bars_begin_where_they_are_written_when_no_bar_is_partial() =>
        BreakGenerator.Breaks.Sample(made =>
        {
            var played = made with { Bars = [.. made.Bars.Where(bar => !bar.IsPartial)], Swing = Swing.Of(3, 1) };
            var time = SwungTime.Of(played);
            var start = Fraction.Zero;
            foreach (var index in played.Order)
            {
                time.At(start).Should().Be(start);
                start += played.Bars[index].Length;
            }
        });

    [Fact]
    public void Without_a_swing_every_time_stays() =>
        BreakGenerator.Breaks.Sample(made =>
        {
            var time = SwungTime.Of(made with { Swing = null });
            made.Played().Should().OnlyContain(stroke => time.At(stroke.At) == stroke.At);
        });

    [Fact]
    public void Compound_metres_do_not_swing()
    {
        var bar = SampleBreaks.Bar("3.0T 2.0I 1.0M 3.0T 2.0I 1.0M", time: new TimeSignature(6, 8));
        var played = SampleBreaks.Small with { Bars = [bar], Time = bar.Time, Swing = Swing.TwoToOne, Spans = [] };
        var time = SwungTime.Of(played);
        played.Played().Should().OnlyContain(stroke => time.At(stroke.At) == stroke.At);
    }

    // Eighths at 0 and 1/8 of a whole note sound at 0 and 1/6; what slurs half way between them at half way between.
    [Fact]
    public void A_slur_within_a_step_is_carried_along()
    {
        var bar = SampleBreaks.Bar("3.2T 2.0I 5.0T 1.0M");
        var slurred = bar.Strokes[0] with
        {
            At = new Fraction(1, 16),
            Fret = 4,
            Right = null,
            Slur = Strokes.SlurKind.Slide,
        };
        var played = SampleBreaks.Small with
        {
            Bars = [bar with { Strokes = bar.Strokes.Insert(1, slurred) }],
            Swing = Swing.TwoToOne,
            Spans = [],
        };
        var time = SwungTime.Of(played);
        played
            .Played()
            .Select(stroke => time.At(stroke.At))
            .Should()
            .Equal(Fraction.Zero, new(1, 12), new(1, 6), new(1, 4), new(5, 12));
    }

    [Fact]
    public void Triplets_stay_even_within_a_swung_bar()
    {
        var bar = SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M");
        Fraction[] times = [Fraction.Zero, new(1, 12), new(1, 6), new(1, 4), new(3, 8)];
        var played = SampleBreaks.Small with
        {
            Bars = [bar with { Strokes = [.. times.Select(at => bar.Strokes[0] with { At = at })] }],
            Swing = Swing.TwoToOne,
            Spans = [],
        };
        var time = SwungTime.Of(played);
        times.Select(time.At).Should().Equal(Fraction.Zero, new(1, 12), new(1, 6), new(1, 4), new(5, 12));
    }
}
