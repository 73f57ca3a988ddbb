using System.Globalization;
using System.Text;
using System.Xml.Linq;
using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Drawing;
using Rollwright.Lessons.Captions;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Strips;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;
using SkiaSharp;

namespace Rollwright.Lessons.Tests.Strips;

/// <summary>The strip of tab that is laid over a video.</summary>
public class TabStripTests
{
    // Bars of different length, a second of silence before the first: no tempo has these.
    private static BarTimes Uneven(Break played)
    {
        var at = 1.0;
        return new([.. played.Order.Select((bar, i) => new BarTime(bar, at, at += 1 + (i % 3 * 0.7)))]);
    }

    [Fact]
    public void Repeats_written_out_play_the_same_strokes_at_the_same_times_and_have_none_left() =>
        BreakGenerator.Breaks.Sample(played =>
        {
            var whole = played.WrittenOut();
            whole.Order.Should().Equal(Enumerable.Range(0, played.Order.Length));
            whole
                .Played()
                .Select(one => (one.At, one.Stroke))
                .Should()
                .Equal(played.Played().Select(one => (one.At, one.Stroke)));
        });

    [Fact]
    public void The_marked_place_is_at_the_number_of_the_note_that_the_synth_sounds_then()
    {
        foreach (var played in SharedBreaks.All())
        {
            var strip = TabStrip.Of(played, BarTimes.At(played));
            var sounds = Timeline.Of(played, new Sound.SynthOptions()).Strokes;
            // The synth begins with the first note, a take with its first bar.
            var lead = strip.Steps.First(step => step.Mark is not null).From - sounds[0].Seconds;
            var bars = sounds.Select(one => one.Played.At).Distinct().Count();
            strip.Steps.Count(step => step.Mark is not null).Should().BeInRange(bars, bars + played.Order.Length);
            var texts = strip
                .Layout.Pages[0]
                .Inks.OfType<Engraving.Drawing.Words>()
                .Where(ink => ink.Kind == Engraving.Drawing.InkKind.TabNumber)
                .ToList();
            foreach (var (seconds, stroke, _) in sounds)
            {
                var step = strip.Steps.Last(one => one.From <= seconds + lead + 1e-6);
                var fret = stroke.Stroke.Fret.ToString(CultureInfo.InvariantCulture);
                texts
                    .Any(text => text.Text == fret && text.Box.Overlaps(step.Mark!.Value))
                    .Should()
                    .BeTrue($"{played.Title} at {seconds}: fret {fret}");
                step.Mark!.Value.Left.Should().BeGreaterThanOrEqualTo(step.Left);
                step.Mark.Value.Right.Should().BeLessThanOrEqualTo(step.Left + TabStrip.Seen);
            }
        }
    }

    [Fact]
    public void Steps_have_no_hole_and_bars_begin_and_end_where_the_take_has_them() =>
        BreakGenerator.Breaks.Sample(played =>
        {
            var times = Uneven(played);
            var strip = TabStrip.Of(played, times);
            strip.Steps[0].From.Should().Be(0);
            strip.Steps[^1].To.Should().Be(times.Bars[^1].To);
            for (var i = 1; i < strip.Steps.Length; i++)
                strip.Steps[i].From.Should().Be(strip.Steps[i - 1].To).And.BeGreaterThan(strip.Steps[i - 1].From);
            strip.Steps.Where(step => step.Bar >= 0).Should().OnlyContain(step => IsWithin(step, times.Bars[step.Bar]));
            strip.Layout.Bars.Length.Should().Be(times.Bars.Length);
        });

    private static bool IsWithin(StripStep step, BarTime bar) => step.From >= bar.From - 1e-9 && step.From < bar.To;

    [Fact]
    public void What_comes_next_is_in_view_whenever_a_bar_begins()
    {
        var played = SampleBreaks.Small;
        var strip = TabStrip.Of(played, BarTimes.At(played));
        var bars = strip.Layout.Bars;
        foreach (var first in strip.Steps.GroupBy(step => step.Bar).Select(bar => bar.First()))
            bars[Math.Min(first.Bar + 1, bars.Length - 1)]
                .Box.Right.Should()
                .BeLessThanOrEqualTo(first.Left + TabStrip.Seen);
    }

    // A picture of 1280 by 720 pixels, of which the strip may cover 22 %.
    [Fact]
    public void The_low_form_leaves_four_fifths_of_the_picture_and_has_the_same_notes_at_the_same_times()
    {
        foreach (var played in SharedBreaks.All().Append(SampleBreaks.Small))
        {
            var times = BarTimes.At(played);
            var (full, low) = (TabStrip.Of(played, times), TabStrip.Of(played, times, isLow: true));
            var pictures = new Engraving.Png.StripPictures(low.Layout, 1280, TabStrip.Seen, 0.85);
            pictures.Height.Should().BeLessThanOrEqualTo((int)(0.22 * 720), played.Title);
            Numbers(low).Should().Equal(Numbers(full), played.Title);
            low.Layout.Pages[0].Inks.Should().NotContain(ink => ink.Kind == InkKind.Stem || ink.Kind == InkKind.Chord);
            low.Steps.Select(step => (step.From, step.To, step.Bar))
                .Should()
                .Equal(full.Steps.Select(step => (step.From, step.To, step.Bar)));
            foreach (var mark in low.Steps.Select(step => step.Mark).OfType<Box>())
                (
                    mark.Top >= Engraving.Png.StripPictures.PointHeight - 1e-9
                    && mark.Bottom <= low.Layout.Pages[0].Height
                )
                    .Should()
                    .BeTrue(played.Title);
        }

        static IEnumerable<string> Numbers(TabStrip strip) =>
            strip
                .Layout.Pages[0]
                .Inks.OfType<Engraving.Drawing.Words>()
                .Where(ink => ink.Kind == InkKind.TabNumber)
                .Select(ink => ink.Text);
    }

    [Theory]
    [InlineData(640, 0.85)]
    [InlineData(1281, 1)]
    public void Pictures_are_as_wide_as_asked_and_as_dense_and_marked_where_the_step_says(int width, double plate)
    {
        var lesson = Sample(Uneven(SampleBreaks.Small)) with { Strip = new(width, plate) };
        var strip = TabStrip.Of(lesson.Plan.Played, lesson.Times);
        List<LessonFile> files = [.. LessonOutput.Find("strip")!.Make(lesson)];
        var pictures = files.Where(file => file.Path.EndsWith(".png", StringComparison.Ordinal)).ToList();
        pictures.Should().HaveSameCount(strip.Steps);
        var scale = width / 2 * 2 / TabStrip.Seen;
        foreach (var (picture, step) in pictures.Zip(strip.Steps))
        {
            using var image = SKBitmap.Decode(picture.Bytes);
            image.Width.Should().Be(width / 2 * 2);
            (image.Height % 2).Should().Be(0);
            image.GetPixel(0, 0).Alpha.Should().Be(0, "the ground is transparent");
            image.GetPixel(image.Width / 2, 1).Alpha.Should().Be((byte)Math.Round(255 * plate));
            var marked = Enumerable.Range(0, image.Width).Where(x => IsMark(image, x)).ToList();
            if (step.Mark is not { } mark)
            {
                marked.Should().BeEmpty();
                continue;
            }
            marked[0].Should().BeCloseTo((int)((mark.Left - step.Left) * scale), 2);
            marked[^1].Should().BeCloseTo((int)((mark.Right - step.Left) * scale), 2);
        }
    }

    // Yellow anywhere in the column.
    private static bool IsMark(SKBitmap image, int x) =>
        Enumerable.Range(0, image.Height).Any(y => image.GetPixel(x, y) is { Red: > 240, Green: > 180, Blue: < 90 });

    [Fact]
    public void The_list_names_every_picture_once_and_the_last_again_and_lasts_as_long_as_the_take()
    {
        var lesson = Sample(Uneven(SampleBreaks.Small));
        List<LessonFile> files = [.. LessonOutput.Find("strip")!.Make(lesson)];
        var lines = Encoding.UTF8.GetString(files.Single(file => file.Path == StripOutput.List).Bytes).Split('\n');
        lines[0].Should().Be("ffconcat version 1.0");
        var named = lines.Where(line => line.StartsWith("file ", StringComparison.Ordinal)).Select(line => line[5..]);
        var made = files.Where(file => file.Path.EndsWith(".png", StringComparison.Ordinal)).Select(file => file.Path);
        named.SkipLast(1).Select(name => $"strip/{name}").Should().Equal(made);
        named.Last().Should().Be(named.SkipLast(1).Last());
        lines
            .Where(line => line.StartsWith("duration ", StringComparison.Ordinal))
            .Sum(line => double.Parse(line[9..], CultureInfo.InvariantCulture))
            .Should()
            .BeApproximately(lesson.Times.Bars[^1].To, 1e-3);
    }

    [Fact]
    public void The_still_strip_is_one_line_with_every_played_bar_over_its_plate()
    {
        var lesson = Sample(BarTimes.At(SampleBreaks.Small)) with { Strip = new(Plate: 0.6) };
        var file = LessonOutput.Find("strip")!.Make(lesson).First();
        file.Path.Should().Be("strip/strip.svg");
        var tree = XDocument.Parse(Encoding.UTF8.GetString(file.Bytes)).Root!;
        var plate = tree.Descendants().Single(element => element.Attribute("class")?.Value == "plate");
        plate.Attribute("fill-opacity")!.Value.Should().Be("0.6");
        tree.Descendants()
            .Count(element => element.Attribute("class")?.Value == "tab-number")
            .Should()
            .Be(SampleBreaks.Small.Played().Length);
    }

    [Fact]
    public void Four_hours_have_no_more_pictures_than_a_minute_and_too_many_notes_have_one_a_bar()
    {
        var played = SampleBreaks.Small;
        var usual = TabStrip.Of(played, BarTimes.At(played));
        var slow = TabStrip.Of(
            played,
            new([.. played.Order.Select((bar, i) => new BarTime(bar, i * 1100, (i + 1) * 1100))])
        );
        slow.Steps.Length.Should().Be(usual.Steps.Length);
        slow.Steps[^1].To.Should().BeGreaterThan(3 * 3600);
        var bar = played.Bars[1] with { Marks = new() };
        var many = played with { Bars = [.. Enumerable.Repeat(bar, 600)], Spans = [] };
        var strip = TabStrip.Of(many, BarTimes.At(many));
        strip.IsByBar.Should().BeTrue();
        strip.Steps.Should().HaveCount(600);
        var endless = played with { Bars = [.. Enumerable.Repeat(bar, TabStrip.MostPictures)], Spans = [] };
        var act = () => TabStrip.Of(endless, BarTimes.At(endless));
        act.Should().Throw<LessonException>().WithMessage("*4000*--bar-times*");
    }

    private static Lesson Sample(BarTimes times) => new() { Plan = LessonPlan.Of(SampleBreaks.Small), Times = times };
}
