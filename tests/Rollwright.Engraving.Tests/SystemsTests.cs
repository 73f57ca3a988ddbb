using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Forms;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

public class SystemsTests
{
    private const string Roll = "3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T 1.0M";

    [Fact]
    public void A_tune_of_two_parts_of_eight_bars_stands_in_fours_and_each_part_starts_a_system()
    {
        var layout = Engraver.Lay(TwoParts(8), PageStyle.A4);
        layout.Bars.GroupBy(place => place.System).Select(system => system.Count()).Should().Equal(5, 4, 4, 4);
        layout
            .Bars.First(place => place.Bar == 9)
            .System.Should()
            .Be(2, "bar 9 opens part B behind the pickup and eight bars");
    }

    [Fact]
    public void Lines_one_below_the_other_are_of_like_density_at_any_size()
    {
        foreach (var scale in new[] { 1, 1.2, 1.4, 1.6, 1.8 })
        {
            var layout = Engraver.Lay(TwoParts(8), PageStyle.LargePrint with { Scale = scale });
            var full = layout.Bars.Where(place => place.Bar > 0).GroupBy(place => place.System);
            var widths = full.Select(system => system.Average(place => place.Box.Width)).ToList();
            foreach (var (above, below) in widths.Zip(widths.Skip(1)))
                (below / above).Should().BeInRange(0.6, 1.67, $"bars do not jump in width at scale {scale}");
        }
    }

    [Fact]
    public void A_short_last_system_is_not_stretched_to_the_margin()
    {
        var layout = Engraver.Lay(TwoParts(2), PageStyle.A4);
        layout.Bars.Max(place => place.Box.Right).Should().BeLessThan(PageStyle.A4.Width * 0.75);
    }

    [Fact]
    public void Full_systems_end_at_the_margin()
    {
        var layout = Engraver.Lay(TwoParts(8), PageStyle.A4);
        foreach (var system in layout.Bars.GroupBy(place => place.System))
            system
                .Max(place => place.Box.Right)
                .Should()
                .BeApproximately(PageStyle.A4.Width - PageStyle.A4.Margin, 0.1);
    }

    [Fact]
    public void Systems_are_set_smaller_where_that_saves_a_page_unless_the_style_forbids_it()
    {
        var long24 = TwoParts(12);
        Engraver.Lay(long24, PageStyle.A4).Pages.Should().HaveCount(1);
        Engraver.Lay(long24, PageStyle.A4 with { MaySaveAPage = false }).Pages.Should().HaveCount(2);
    }

    [Fact]
    public void Pages_are_filled_alike()
    {
        // Eight systems of 100 on pages that hold five: four and four, not five and three.
        PageFilling.Fill([.. Enumerable.Repeat(100.0, 8)], 10, _ => 560, _ => false).Should().Equal(4, 8);
    }

    [Fact]
    public void A_page_is_turned_at_the_end_of_a_part_where_that_costs_little() =>
        PageFilling.Fill([.. Enumerable.Repeat(100.0, 7)], 10, _ => 560, system => system == 2).Should().Equal(3, 7);

    private static Break TwoParts(int bars) =>
        SampleBreaks.Small with
        {
            Bars =
            [
                SampleBreaks.Bar("3.0T 2.0I", new() { Part = "A" }),
                .. Enumerable.Range(0, bars).Select(i => SampleBreaks.Bar(Roll, Marks(i, null), "G")),
                .. Enumerable.Range(0, bars).Select(i => SampleBreaks.Bar(Roll, Marks(i, "B"), "C")),
            ],
            Spans = [],
        };

    private static BarMarks Marks(int index, string? part) => new() { Part = index == 0 ? part : null };
}
