using Rollwright.Banjo.Data;
using Rollwright.Sound.Band;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Tests;

/// <summary>Whoever edits a table is told where it is wrong.</summary>
public class TableTests
{
    private const string Instruments =
        "instrument | scale | yield | along | direct | frets | spread | ring | pan | level | source\n"
        + "lute | 600 | 0.002 | 0.2 | 0.1 | 0-4 | 8 | 60 | 0 | -3 | A\n";
    private const string Strings =
        "instrument | string | open | fast | slow | fast-halving | slow-halving | high | bright | thin | source\n"
        + "lute | 1 | G4 | 1 | 2 | 15 | 15 | 0.5 | 1000/2000 | 20 | A\n";
    private const string Modes = "instrument | hz | q | level | side | source\nlute | 100 | 8 | 1 | 0 | A\n";
    private const string Touches =
        "instrument | finger | force | from-bridge | wander | sharp | scrape | source\n"
        + "lute | finger | 1 | 100 | 2 | 4000 | 0.01 | A\n";

    [Fact]
    public void An_instrument_is_what_its_rows_say()
    {
        var lute = InstrumentTable.Parse(Instruments, Strings, Modes, Touches).Single();
        lute.Name.Should().Be("lute");
        lute.OpenStrings.Should().Equal(new OpenString(67, 600));
        lute.Spread.Should().Be(0.008);
        lute.Body.Should().ContainSingle(mode => mode.Hz == 100);
        // From register to register by equal ratios; beyond the last with the pitch.
        var voice = lute.Strings[0];
        voice.BrightAt(0).Should().Be(1000);
        voice.BrightAt(2.5).Should().BeApproximately(1000 * Math.Sqrt(2), 1e-9);
        voice.BrightAt(5).Should().BeApproximately(2000, 1e-9);
        voice.BrightAt(17).Should().BeApproximately(4000, 1e-9);
    }

    [Theory]
    [InlineData("600", "10", "instruments.txt:2: scale is not from 50 to 2000")]
    [InlineData("0.002", "0.5", "instruments.txt:2: yield is not from 0 to 0.1")]
    [InlineData("0-4", "four", "instruments.txt:2:34: frets are the lowest and the highest, such as 0-4")]
    [InlineData("1 | G4", "2 | G4", "string-voices.txt:2: strings stand in order; this row is string 1 of the lute")]
    [InlineData("G4", "H4", "string-voices.txt:2:12: 'H4' is no pitch; write it as E2, or - where the tuning says it")]
    [InlineData("1000/2000", "1000/x", "string-voices.txt:2:41: 'x' is no frequency")]
    [InlineData(
        "1000/2000",
        "1/2/3/4/5",
        "string-voices.txt:2:41: at most 4 values, for 0, 5, 12, 17 semitones above open"
    )]
    [InlineData(
        "lute | 1 ",
        "oud | 1 ",
        "instruments.txt:2: 'lute' has no string in string-voices.txt or no touch in touches.txt"
    )]
    [InlineData("| 100 | 8", "| 10 | 8", "body-modes.txt:2: hz is not from 20 to 20000")]
    [InlineData("| 4000", "| 0", "touches.txt:2: sharp must be more than 0")]
    public void A_wrong_row_says_where_and_what(string right, string wrong, string message)
    {
        string With(string table)
        {
            var at = table.IndexOf('\n', StringComparison.Ordinal);
            return table[..at] + table[at..].Replace(right, wrong, StringComparison.Ordinal);
        }
        FluentActions
            .Invoking(() => InstrumentTable.Parse(With(Instruments), With(Strings), With(Modes), With(Touches)))
            .Should()
            .Throw<DataException>()
            .WithMessage(message);
    }

    [Fact]
    public void A_pattern_is_read_sign_by_sign_and_a_wrong_sign_is_named()
    {
        var pattern = Pattern
            .Parse("p.txt", "part | metre | pattern | source\nx | 4/4 | b - / . X x - | A\n")
            .Single()
            .Pattern;
        pattern.Bars[0].Should().Equal(PatternSign.Bass, PatternSign.Ring);
        pattern
            .Bars[1]
            .Should()
            .Equal(PatternSign.Silence, PatternSign.StrongStroke, PatternSign.Stroke, PatternSign.Ring);
        FluentActions
            .Invoking(() => Pattern.Parse("p.txt", "part | metre | pattern | source\nx | 4/4 | b q | A\n"))
            .Should()
            .Throw<DataException>()
            .WithMessage("p.txt:2:11: 'q' is none of the signs . - b x X");
    }

    [Fact]
    public void The_built_in_tables_name_every_accompanist_in_every_table()
    {
        Ensemble.Accompanists.Should().Equal("bass", "guitar", "chop", "click");
        foreach (var name in Ensemble.Accompanists)
        {
            var voice = InstrumentTable.Of(name);
            voice.Strings.Should().OnlyContain(item => item.Open != null);
            voice.Body.Should().NotBeEmpty();
            Pattern.Of(name, new(7, 8)).Bars[0].Should().HaveCount(7);
        }
        InstrumentTable.Banjo.Touches.Keys.Should().Contain(["thumb", "index", "middle", "hammer", "pull"]);
    }
}
