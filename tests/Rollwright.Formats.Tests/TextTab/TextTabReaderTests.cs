using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Formats.Messages;
using Rollwright.Formats.TextTab;
using Rollwright.Music.Metre;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.TextTab;

/// <summary>Tab as players post it; the pages here are our own, in the ways that are common practice.</summary>
public class TextTabReaderTests
{
    // Left-hand fingers, the marks of melody notes, names of rolls, the tune and its shift are not on the page.
    [Fact]
    public void What_the_page_shows_of_a_break_comes_back() =>
        BreakGenerator.Breaks.Sample(
            written =>
            {
                var reading = TextTabReader.Read(TextTabWriter.Write(written), "break.tab");
                var read = reading.Break!;
                reading.Messages.Should().NotContain(message => message.Severity == Severity.Error);
                read.Title.Should().Be(written.Title);
                read.Composer.Should().Be(written.Composer);
                read.Setting.Should().Be(written.Setting with { Shift = read.Setting.Shift });
                (read.Time, read.Tempo, read.Swing).Should().Be((written.Time, written.Tempo, written.Swing));
                read.Bars.Should().HaveSameCount(written.Bars);
                read.Order.Should().Equal(written.Order);
                foreach (var (own, other) in written.Bars.Zip(read.Bars))
                {
                    // A bar that no even grid holds keeps its order only.
                    if (BarGrid.Of(own).Unit is not null)
                    {
                        other.Length.Should().Be(own.Length);
                        other.Strokes.Select(Seen).Should().Equal(own.Strokes.Select(Seen));
                    }
                    else
                        other
                            .Strokes.Select(stroke => (stroke.String, stroke.Fret, stroke.Slur))
                            .Should()
                            .BeEquivalentTo(own.Strokes.Select(stroke => (stroke.String, stroke.Fret, stroke.Slur)));
                }
            },
            iter: 1000
        );

    private static (Fraction, int, int, SlurKind?, RightFinger?) Seen(Stroke stroke) =>
        (stroke.At, stroke.String, stroke.Fret, stroke.Slur, stroke.Right);

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    public void Our_sample_comes_back_with_its_form_and_chords(int capo)
    {
        var written = capo == 0 ? SampleBreaks.Small : SampleBreaks.SmallCapo2;
        var read = TextTabReader.Read(TextTabWriter.Write(written), "break.tab").Break!;
        read.Order.Should().Equal(written.Order);
        read.Bars.Select(bar => bar.Marks.Part).Should().Equal(written.Bars.Select(bar => bar.Marks.Part));
        read.Bars.SelectMany(bar => bar.Chords).Should().Equal(written.Bars.SelectMany(bar => bar.Chords));
        read.Setting.Position.Should().Be(written.Setting.Position);
    }

    [Fact]
    public void Tab_without_a_word_is_read_by_its_spacing_and_says_what_it_assumed()
    {
        var reading = TextTabReader.Read(
            """
            |-----0-------0---|-----------------|
            |---0-----0-------|-1-----0---------|
            |-0---------------|---2-----0-------|
            |-----------------|-----------0-----|
            |-------0-------0-|-------0-----0---|
            """,
            "posted.tab"
        );
        Notes(reading.Break!, 0)
            .Should()
            .Equal("0:3.0T", "1/8:2.0I", "1/4:1.0M", "3/8:5.0T", "1/2:2.0I", "3/4:1.0M", "7/8:5.0T");
        Notes(reading.Break!, 1)[0].Should().Be("0:2.1I");
        reading.Break!.Time.Should().Be(TimeSignature.Common);
        string.Join('\n', reading.Messages.Select(message => message.What))
            .Should()
            .ContainAll("no count", "no fingers", "metre", "tuning", "key");
    }

    [Fact]
    public void A_count_says_the_rhythm_whatever_the_spacing()
    {
        var read = TextTabReader
            .Read(
                """
                Kitchen Reel
                Tuning: gDGBD   Capo 2
                Key: A

                D|-0-----------0---|
                B|---------1-------|
                G|-----2h4---------|
                D|-----------------|
                g|--------------0--|
                  T   T   I   M T
                  1   2 & 3   4 &
                """,
                "counted.tab"
            )
            .Break!;
        read.Title.Should().Be("Kitchen Reel");
        read.Setting.Capo.Should().Be(2);
        read.Setting.SoundingKey.ToString().Should().Be("A major");
        read.Bars.Single().Length.Should().Be(new Fraction(1));
        Notes(read, 0).Should().StartWith(["0:1.0T", "1/4:3.2T", "3/8:3.4hammer-on", "1/2:2.1I", "3/4:1.0M"]);
    }

    // The letter may stand before the bar line, behind it, or on the system before.
    [Theory]
    [InlineData("|-------2h|4-------|", "hammer-on")]
    [InlineData("|-------2-|h4------|", "hammer-on")]
    [InlineData("|-------4p|2-------|", "pull-off")]
    [InlineData("|-------2/|4-------|", "slide")]
    [InlineData("|-------4\\|2-------|", "slide")]
    [InlineData("|-------2s|4-------|\n", "slide")]
    public void A_slur_over_a_bar_line_keeps_where_it_comes_from(string third, string kind)
    {
        const string Rest = "|---------|--------|";
        var page = string.Join('\n', Rest, Rest, third.Trim(), Rest, Rest);
        var read = TextTabReader.Read(page, "over.tab").Break!;
        var link = SlurLinks.Of(read).Single();
        (link.From, link.To).Should().Be((new StrokeName(0, 0), new StrokeName(1, 0)));
        SlurNames.Word(link.Kind).Should().Be(kind);
        var halves = page.Split('\n').Select(line => (line[..11], "|" + line[11..])).ToList();
        var parted =
            string.Join('\n', halves.Select(half => half.Item1))
            + "\n\n"
            + string.Join('\n', halves.Select(half => half.Item2));
        SlurLinks.Of(TextTabReader.Read(parted, "parted.tab").Break!).Single().Should().Be(link);
    }

    [Fact]
    public void Bends_slides_off_and_ornaments_are_read_as_far_as_a_break_holds_them()
    {
        var reading = TextTabReader.Read(
            """
            1|-8b10---0-----|
            2|--------------|
            3|-------4~-----|
            4|----5\---0----|
            5|------------x-|
            """,
            "bends.tab"
        );
        var strokes = reading.Break!.Bars[0].Strokes;
        strokes
            .Select(stroke => (stroke.String, stroke.Fret, stroke.Slur))
            .Should()
            .Equal((1, 8, null), (1, 8, SlurKind.Choke), (4, 5, null), (3, 4, null), (1, 0, null), (4, 0, null));
        reading
            .Messages.Select(message => message.What)
            .Should()
            .Contain(what => what.Contains("damped"))
            .And.Contain(what => what.Contains("ornaments"));
    }

    [Fact]
    public void Repeats_endings_and_parts_are_read()
    {
        var read = TextTabReader
            .Read(
                """
                A:
                          1._____   2._____
                |---0---||:-0---0--:||-2---2---||
                |---0---||:-0---0--:||-2---2---||
                |---0---||:-0---0--:||-2---2---||
                |---0---||:-0---0--:||-2---2---||
                |---0---||:-0---0--:||-7---7---||
                """,
                "form.tab"
            )
            .Break!;
        read.Bars[0].Marks.SectionEnd.Should().BeTrue();
        read.Bars[1].Marks.RepeatStart.Should().BeTrue();
        read.Bars[1].Marks.RepeatEnd.Should().Be(2);
        read.Bars[1].Marks.EndingStart.Should().Equal(1);
        read.Bars[2].Marks.EndingStart.Should().Equal(2);
        read.Order.Should().Equal(0, 1, 2);
    }

    [Fact]
    public void A_page_that_stands_on_its_head_is_turned() =>
        TextTabReader
            .Read("g|-0--|\nD|----|\nG|----|\nB|----|\nD|-2--|", "turned.tab")
            .Break!.Bars[0]
            .Strokes.Select(stroke => stroke.String)
            .Should()
            .BeEquivalentTo([1, 5]);

    [Theory]
    [InlineData("", "no five strings")]
    [InlineData("Dear friend,\nhere is a tune.", "no five strings")]
    [InlineData("e|-0--|\nB|-0--|\nG|-0--|\nD|-0--|\nA|-0--|\nE|-0--|", "6 strings stand together")]
    [InlineData("|-----|\n|-----|\n|-----|\n|-----|\n|-----|", "no string of the page has a number")]
    public void What_holds_no_tab_is_refused_with_a_remedy(string text, string what)
    {
        var reading = TextTabReader.Read(text, "bad.tab");
        reading.Break.Should().BeNull();
        reading.Messages.Should().Contain(message => message.What.Contains(what) && message.Remedy.Length > 0);
    }

    private static List<string> Notes(Break read, int bar) =>
        [
            .. read.Bars[bar]
                .Strokes.Select(stroke =>
                    $"{stroke.At}:{stroke.String}.{stroke.Fret}{(stroke.Slur is { } slur ? SlurNames.Word(slur) : $"{stroke.Right}")}"
                ),
        ];
}
