using System.Collections.Immutable;
using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Formats.TextTab;
using Rollwright.TestKit;
using Snapshooter.Xunit3;

namespace Rollwright.Formats.Tests.TextTab;

public class TextTabWriterTests
{
    [Fact]
    public void The_page_of_a_break_under_a_capo_is_as_kept() =>
        Snapshot.Match(TextTabWriter.Write(SampleBreaks.SmallCapo2));

    [Fact]
    public void The_page_with_left_hand_fingers_is_as_kept() =>
        Snapshot.Match(TextTabWriter.Write(SampleBreaks.Small, new(LeftFingers: true)));

    [Fact]
    public void Marks_stand_under_their_strokes_and_change_nothing_else()
    {
        var plain = TextTabWriter.Write(SampleBreaks.Small).Split('\n');
        var marked = TextTabWriter
            .Write(
                SampleBreaks.Small,
                new() { Marks = ImmutableDictionary<StrokeName, string>.Empty.Add(new(1, 0), "x").Add(new(1, 3), "o") }
            )
            .Split('\n');
        var added = marked.Except(plain).Should().ContainSingle().Subject;
        marked.Where(line => line != added).Should().Equal(plain);
        // Bar 1 begins with string 3 open, its fourth stroke is string 1 open: their fingers stand above the marks.
        var fingers = marked[Array.IndexOf(marked, added) - 1];
        fingers[added.IndexOf('x', StringComparison.Ordinal)].Should().Be('T');
        fingers[added.IndexOf('o', StringComparison.Ordinal)].Should().Be('M');
    }

    [Fact]
    public void Every_note_stands_on_its_string_in_its_order_with_its_slur() =>
        BreakGenerator.Breaks.Sample(written =>
            TabText
                .Read(TextTabWriter.Write(written))
                .Select(mark => (mark.Bar, mark.String, mark.Fret, mark.Slur))
                .Should()
                .Equal(
                    Strokes(written)
                        .Select(item => (item.Bar, item.Stroke.String, item.Stroke.Fret, Letters(item.Stroke)))
                )
        );

    [Fact]
    public void Columns_are_even_wherever_the_strokes_lie_on_a_grid_of_steps() =>
        BreakGenerator.Breaks.Sample(written =>
        {
            var told = TabText.Read(TextTabWriter.Write(written));
            foreach (var (mark, (bar, stroke)) in told.Zip(Strokes(written)))
            {
                var own = written.Bars[bar];
                var parts = own.Strokes.Select(s => (s.At / own.Time.Step).Denominator).Max();
                if (
                    parts <= 2
                    && (own.Length / own.Time.Step).IsWhole
                    && own.Length / own.Time.Step * parts <= new Music.Metre.Fraction(24)
                )
                    (mark.Place * own.Length).Should().Be(stroke.At);
            }
        });

    [Fact]
    public void Systems_keep_to_eighty_columns_where_a_bar_fits_at_all() =>
        BreakGenerator.Breaks.Sample(written =>
        {
            foreach (
                var system in TextTabWriter
                    .Write(written)
                    .Split("\n\n")
                    .Where(block => block.Contains("|-", StringComparison.Ordinal))
            )
            {
                var strings = system.Split('\n').Where(line => line.Contains("|-", StringComparison.Ordinal)).ToList();
                var isOneBar = strings[0].TrimEnd('|').Count(sign => sign == '|') == 1;
                strings.Should().OnlyContain(line => isOneBar || line.Length <= 80);
            }
        });

    private static IEnumerable<(int Bar, Stroke Stroke)> Strokes(Break written) =>
        written.Bars.SelectMany((bar, index) => bar.Strokes.Select(stroke => (index, stroke)));

    private static string Letters(Stroke stroke) =>
        stroke.Slur switch
        {
            SlurKind.HammerOn => "h",
            SlurKind.PullOff => "p",
            SlurKind.Slide => "s",
            SlurKind.Choke => "ch",
            _ => "",
        };
}
