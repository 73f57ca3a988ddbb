using Rollwright.Lessons.Practice;
using Rollwright.Music.Metre;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Practice;

public class LoopTests
{
    // A pickup, three bars, two endings, a part of its own behind them: 0 | 1 2 3 4 | 1 2 3 5 | 6 …
    [Fact]
    public void Bars_are_where_they_first_follow_each_other_in_order_of_play()
    {
        var loop = Loop.Of(SampleBreaks.Small, [1, 2]);
        loop.From.Should().Be(new Fraction(1, 4), "behind the pickup");
        (loop.To - loop.From).Should().Be(new Fraction(2, 1));
        loop.Name.Should().Be("bars 1–2");
    }

    [Fact]
    public void A_second_ending_is_led_into_by_the_bar_that_is_played_before_it()
    {
        var order = SampleBreaks.Small.Order;
        var ending = Loop.Of(SampleBreaks.Small, [5]);
        var led = ending.WithEntry(SampleBreaks.Small);
        led.Bars.Should().Equal(3, 5);
        led.To.Should().Be(ending.To);
        led.Name.Should().Be("bars 3 and 5");
        order.IndexOf(5).Should().BeGreaterThan(order.LastIndexOf(3), "that is what order of play means");
    }

    [Fact]
    public void The_neighbour_is_the_next_bar_of_the_phrase_else_the_one_before()
    {
        var bar = Loop.Of(SampleBreaks.Small, [1]);
        bar.WithNeighbour(SampleBreaks.Small, [1, 2]).Bars.Should().Equal(1, 2);
        Loop.Of(SampleBreaks.Small, [2]).WithNeighbour(SampleBreaks.Small, [1, 2]).Bars.Should().Equal(1, 2);
        bar.WithNeighbour(SampleBreaks.Small, [1]).Should().BeSameAs(bar);
    }

    [Fact]
    public void A_pickup_is_played_but_not_said()
    {
        var loop = Loop.Of(SampleBreaks.Small, [0, 1, 2]);
        loop.Bars.Should().Equal(0, 1, 2);
        loop.From.Should().Be(Fraction.Zero);
        loop.Name.Should().Be("bars 1–2");
    }
}
