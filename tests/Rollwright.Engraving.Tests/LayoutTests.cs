using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

public class LayoutTests
{
    [Fact]
    public void Nothing_stands_outside_the_page() =>
        Pages.Claim((_, layout) => Collisions.OfPaper(layout).FirstOrDefault().Should().BeNull());

    [Fact]
    public void Every_stroke_is_drawn_once() =>
        Pages.Claim(
            (played, layout) =>
                layout
                    .Strokes.Select(place => place.Stroke)
                    .Should()
                    .BeEquivalentTo(NamesOf(played))
                    .And.OnlyHaveUniqueItems()
        );

    [Fact]
    public void Within_a_bar_time_runs_to_the_right_and_together_stands_together() =>
        Pages.Claim(
            (_, layout) =>
            {
                foreach (var bar in layout.Strokes.GroupBy(place => place.Stroke.Bar))
                {
                    var columns = bar.OrderBy(place => place.At).GroupBy(place => place.At).ToList();
                    foreach (var column in columns)
                        column.Select(place => place.X).Distinct().Should().HaveCount(1);
                    columns.Select(column => column.First().X).Should().BeInAscendingOrder().And.OnlyHaveUniqueItems();
                }
            }
        );

    [Fact]
    public void Bars_follow_each_other_along_the_systems_and_down_the_pages() =>
        Pages.Claim(
            (played, layout) =>
            {
                layout.Bars.Select(place => place.Bar).Should().Equal(Enumerable.Range(0, played.Bars.Length));
                for (var i = 1; i < layout.Bars.Length; i++)
                {
                    var (before, here) = (layout.Bars[i - 1], layout.Bars[i]);
                    if (here.System == before.System)
                        here.Box.Left.Should().BeGreaterThanOrEqualTo(before.Box.Right - 0.001);
                    else if (here.Page == before.Page)
                        here.Box.Top.Should().BeGreaterThan(before.Box.Bottom);
                    else
                        here.Page.Should().Be(before.Page + 1);
                }
            }
        );

    [Fact]
    public void Every_stroke_stands_within_its_bar() =>
        Pages.Claim(
            (_, layout) =>
            {
                var bars = layout.Bars.ToDictionary(place => place.Bar);
                foreach (var place in layout.Strokes)
                {
                    var bar = bars[place.Stroke.Bar];
                    (place.Page, place.System).Should().Be((bar.Page, bar.System));
                    place.Number.Left.Should().BeGreaterThan(bar.Box.Left);
                    place.Number.Right.Should().BeLessThan(bar.Box.Right);
                }
            }
        );

    [Fact]
    public void Each_right_hand_finger_stands_under_its_number() =>
        Pages.Claim(
            (played, layout) =>
            {
                foreach (var (page, index) in layout.Pages.Select((page, index) => (page, index)))
                {
                    var fingers = page.Inks.OfType<Words>().Where(ink => ink.Kind == InkKind.RightFinger).ToList();
                    if (fingers.Count == 0)
                        continue;
                    var places = layout.Strokes.Where(place => place.Page == index).ToList();
                    var plucked = places.Where(place => StrokeOf(played, place.Stroke).Right is not null).ToList();
                    fingers.Should().HaveCount(plucked.Count);
                    foreach (var place in plucked)
                    {
                        var letter = $"{StrokeOf(played, place.Stroke).Right}";
                        fingers
                            .Should()
                            .Contain(ink =>
                                ink.Text == letter && ink.X == place.X && ink.Box.Top > place.Number.Bottom
                            );
                    }
                }
            }
        );

    [Fact]
    public void Melody_notes_are_told_by_weight_and_by_a_line() =>
        Pages.Claim(
            (played, layout) =>
            {
                var inks = layout.Pages.SelectMany(page => page.Inks).ToList();
                var lines = inks.Where(ink => ink.Kind == InkKind.MelodyLine).Select(ink => ink.Stroke!.Value);
                if (inks.TrueForAll(ink => ink.Kind != InkKind.TabNumber))
                {
                    lines.Should().BeEmpty("notes without tab are not marked");
                    return;
                }
                var melody = NamesOf(played).Where(name => StrokeOf(played, name).IsMelody).ToList();
                lines.Should().BeEquivalentTo(melody);
                inks.OfType<Words>()
                    .Where(ink => ink is { Kind: InkKind.TabNumber, Face: Measuring.Face.PlainBold })
                    .Select(ink => ink.Stroke!.Value)
                    .Should()
                    .BeEquivalentTo(melody);
            }
        );

    [Fact]
    public void Written_lengths_of_a_bar_add_up_to_the_bar() =>
        Pages.Claim(
            (played, _) =>
            {
                foreach (var bar in Notation.BreakReading.Read(played))
                {
                    var now = Music.Metre.Fraction.Zero;
                    foreach (var moment in bar.Moments)
                    {
                        moment.At.Should().Be(now);
                        now += moment.Length;
                        if (!moment.Triplet && !(moment.IsRest && moment.Length == bar.Bar.Time.Bar))
                            moment.Value.Length.Should().Be(moment.Length);
                    }
                    now.Should().Be(bar.Bar.Length);
                }
            }
        );

    [Fact]
    public void The_same_break_is_laid_out_the_same_way_twice()
    {
        var once = Engraver.Lay(SampleBreaks.Small, PageStyle.A4);
        var twice = Engraver.Lay(SampleBreaks.Small, PageStyle.A4);
        Svg.SvgWriter.Write(once).Should().Be(Svg.SvgWriter.Write(twice));
    }

    [Fact]
    public void A_break_without_bars_is_refused_with_a_reason()
    {
        var empty = SampleBreaks.Small with { Bars = [] };
        var laying = () => Engraver.Lay(empty, PageStyle.A4);
        laying.Should().Throw<ArgumentException>().WithMessage("There is nothing to draw: the break has no bar.*");
    }

    [Theory]
    [InlineData(100, 800)]
    [InlineData(double.NaN, 800)]
    [InlineData(600, 100)]
    public void A_page_without_room_is_refused_with_a_remedy(double width, double height)
    {
        var laying = () => Engraver.Lay(SampleBreaks.Small, new PageStyle { Width = width, Height = height });
        laying.Should().Throw<ArgumentException>().WithMessage("*leaves no room for music; take*");
    }

    [Fact]
    public void A_bar_of_two_hundred_notes_is_set_smaller_until_it_fits()
    {
        var steps = string.Join(' ', Enumerable.Range(0, 200).Select(i => i % 2 == 0 ? "3.12T" : "1.10M"));
        var full = SampleBreaks.Small with { Bars = [SampleBreaks.Bar(steps)] };
        var layout = Engraver.Lay(full, PageStyle.A4);
        layout.Strokes.Should().HaveCount(200);
        layout.Strokes.Max(place => place.Number.Right).Should().BeLessThan(PageStyle.A4.Width);
    }

    private static List<StrokeName> NamesOf(Break played) =>
        [
            .. played.Bars.SelectMany(
                (bar, index) => Enumerable.Range(0, bar.Strokes.Length).Select(i => new StrokeName(index, i))
            ),
        ];

    private static Banjo.Strokes.Stroke StrokeOf(Break played, StrokeName name) =>
        played.Bars[name.Bar].Strokes[name.Index];
}
