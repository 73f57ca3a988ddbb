using CsCheck;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Music.Tests.Forms;

/// <summary>
/// Counting as players and engravers do: a pickup is bar 0, the rest of a bar that a repeat cut keeps its number, and bars
/// of every ending count on (common practice, no source).
/// </summary>
public class BarNumberingTests
{
    // A bar is its quarters in 4/4, with its marks: "[" repeat start, "1:" ending, "]" repeat end, "|" section end, "'" part.
    private static BarNumbering Of(string text) =>
        BarNumbering.Of([
            .. text.Split(' ')
                .Select(bar =>
                    (
                        new Fraction(bar.First(char.IsAsciiLetter) - 'a' + 1, 4),
                        TimeSignature.Common,
                        new BarMarks
                        {
                            RepeatStart = bar.Contains('[', StringComparison.Ordinal),
                            RepeatEnd = bar.Contains(']', StringComparison.Ordinal) ? 2 : 0,
                            EndingStart = [.. bar.Where(char.IsAsciiDigit).Select(sign => sign - '0')],
                            EndingStop = bar.Contains('.', StringComparison.Ordinal),
                            SectionEnd = bar.Contains('|', StringComparison.Ordinal),
                            Part = bar.Contains('\'', StringComparison.Ordinal) ? "P" : null,
                        }
                    )
                ),
        ]);

    [Theory]
    // d is a full bar, c three quarters of one, a a quarter.
    [InlineData("d d d", "1 2 3")]
    [InlineData("a d d c", "0 1 2 3")]
    [InlineData("[a d c] [a d c]", "0 1 2 2 3 4")]
    [InlineData("[a d d] [a d d]", "0 1 2 2b 3 4")]
    [InlineData("a d c| a' d", "0 1 2 2 3")]
    [InlineData("d 1d] 2d. d", "1 2 3 4")]
    [InlineData("[a d 1c] 2c|", "0 1 2 3")]
    [InlineData("[a c 1a] 2a. d", "0 1 1 1b 2")]
    [InlineData("[a d 1d c] 2d c| [a d", "0 1 2 3 4 5 5 6")]
    // All bars shorter than the metre says: each counts, but for the first, which nobody can tell from a pickup.
    [InlineData("c c c c", "0 1 2 3")]
    public void Bars_are_numbered_as_people_count(string bars, string names)
    {
        var numbering = Of(bars);
        var count = bars.Split(' ').Length;
        string.Join(' ', Enumerable.Range(0, count).Select(bar => numbering[bar].Name)).Should().Be(names);
    }

    [Theory]
    [InlineData("a d d", "0", "bar 0")]
    [InlineData("a d d", "0 1 2", "bars 1–2")]
    [InlineData("a d d", "2", "bar 2")]
    [InlineData("d 1d] 2d. d", "0 2 3", "bars 1, 3 and 4")]
    [InlineData("d 1d] 2d. d", "0 2", "bars 1 and 3")]
    [InlineData("[a d c] [a d c]", "2 3 4", "bars 2–3")]
    public void Several_bars_are_said_by_their_numbers_and_a_pickup_goes_with_the_bar_it_leads_into(
        string bars,
        string some,
        string words
    ) => Of(bars).Words([.. some.Split(' ').Select(int.Parse)]).Should().Be(words);

    [Theory]
    [InlineData("a d", 0, "bar 0, beat 4")]
    [InlineData("b d", 0, "bar 0, beat 3")]
    [InlineData("d d", 1, "bar 2, beat 1")]
    [InlineData("d c] [a d", 2, "bar 2, beat 4")]
    public void A_short_bar_is_counted_from_where_the_full_bar_would_begin(string bars, int bar, string place) =>
        Of(bars).Place(bar, Fraction.Zero).Should().Be(place);

    [Fact]
    public void A_line_that_begins_with_a_pickup_has_the_number_that_it_leads_to()
    {
        var numbering = Of("a d c] [a d c]");
        numbering.AtLineStart(0).Should().Be(1);
        numbering.AtLineStart(1).Should().Be(1);
        numbering.AtLineStart(3).Should().Be(3);
    }

    [Fact]
    public void A_name_finds_both_pieces_of_a_bar_that_was_cut()
    {
        var numbering = Of("a d c] [a d c]");
        numbering.Named("2").Should().Equal(2, 3);
        numbering.Named("0").Should().Equal(0);
        numbering.Named("5").Should().BeEmpty();
        (numbering.First, numbering.Last).Should().Be((0, 4));
    }

    private static readonly string[] Signs = ["", "", "", "[", "]", "[]", "|", "'", "1", "2", "1]", "2.", "3"];

    [Theory]
    [InlineData(6, 8, 4, "bar 1, beat 5")]
    [InlineData(4, 4, 4, "bar 1, beat 3")]
    [InlineData(2, 2, 4, "bar 1, beat 2")]
    public void Beats_are_what_is_counted_aloud(int beats, int unit, int eighths, string place)
    {
        var time = new TimeSignature(beats, unit);
        BarNumbering.Of([(time.Bar, time, BarMarks.None)]).Place(0, new Fraction(eighths, 8)).Should().Be(place);
    }

    // Each name with a beat is one place, whatever the marks.
    [Fact]
    public void No_two_places_have_one_name() =>
        Gen.Select(Gen.Int[1, 4], Gen.Int[0, Signs.Length - 1].Select(sign => Signs[sign]))
            .Array[1, 12]
            .Sample(bars =>
            {
                var text = string.Join(' ', bars.Select(bar => $"{(char)('a' + bar.Item1 - 1)}{bar.Item2}"));
                var numbering = Of(text);
                var places = bars.SelectMany(
                        (bar, i) =>
                            Enumerable.Range(0, bar.Item1).Select(beat => numbering.Place(i, new Fraction(beat, 4)))
                    )
                    .ToList();
                places.Should().OnlyHaveUniqueItems(text);
            });
}
