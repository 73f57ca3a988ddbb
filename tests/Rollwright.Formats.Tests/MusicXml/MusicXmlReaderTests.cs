using CsCheck;
using Rollwright.Formats.MusicXml;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.MusicXml;

public class MusicXmlReaderTests
{
    [Fact]
    public void Everything_of_a_break_survives() =>
        Gen.Select(BreakGenerator.Breaks, TuneGenerator.Tunes(8), Gen.Bool, Gen.Bool)
            .Sample(
                (played, tune, hasTune, isPacked) =>
                {
                    var written = hasTune
                        ? played with
                        {
                            Tune = tune with { Bars = tune.Bars[..played.Bars.Length], IsKeyGiven = isPacked },
                        }
                        : played;
                    var text = MusicXmlWriter.Write(written);
                    var reading = isPacked
                        ? MusicXmlReader.Read(MxlFile.Write(text), "break.mxl")
                        : MusicXmlReader.Read(text, "break.musicxml");
                    reading.Messages.Should().BeEmpty();
                    reading.Break.Should().BeEquivalentTo(written, options => options.WithStrictOrdering());
                },
                iter: 100
            );

    [Fact]
    public void Sample_breaks_unfold_the_same_after_reading()
    {
        var read = MusicXmlReader.Read(MusicXmlWriter.Write(SampleBreaks.SmallCapo2), "break.musicxml").Break!;
        read.Order.Should().Equal(SampleBreaks.SmallCapo2.Order);
        read.Setting.Should().Be(SampleBreaks.SmallCapo2.Setting);
    }

    [Theory]
    [InlineData("", "this is no XML, or broken XML")]
    [InlineData("<score-partwise>", "this is no XML, or broken XML")]
    [InlineData("<html/>", "<html> is no score")]
    [InlineData(
        "<score-partwise><part id=\"P1\"><measure/></part></score-partwise>",
        "no note of the score has a string and a fret"
    )]
    public void What_holds_no_tab_is_refused_with_a_remedy(string text, string what)
    {
        var reading = MusicXmlReader.Read(text, "bad.musicxml");
        reading.Break.Should().BeNull();
        var message = reading.Messages.Should().ContainSingle().Subject;
        message.What.Should().Be(what);
        message.Remedy.Should().NotBeEmpty();
    }

    [Fact]
    public void No_text_makes_the_reader_throw()
    {
        var text = MusicXmlWriter.Write(SampleBreaks.Small);
        Gen.Select(
                Gen.Int[0, text.Length - 1],
                Gen.Int[0, 40],
                Gen.String[Gen.Char["<>/&;\"0123456789-adeinst \u0001"], 0, 5]
            )
            .Sample(
                (at, gone, put) =>
                {
                    var reading = MusicXmlReader.Read(
                        text[..at] + put + text[Math.Min(text.Length, at + gone)..],
                        "f.xml"
                    );
                    return reading.Break is not null || !reading.Messages.IsEmpty;
                },
                iter: 500
            );
    }

    [Fact]
    public void A_number_in_place_of_any_number_never_makes_the_reader_throw()
    {
        var text = MusicXmlWriter.Write(SampleBreaks.SmallCapo2);
        var places = System.Text.RegularExpressions.Regex.Matches(
            text,
            ">-?[0-9]+<",
            System.Text.RegularExpressions.RegexOptions.None,
            TimeSpan.FromSeconds(5)
        );
        Gen.Select(
                Gen.Int[0, places.Count - 1],
                Gen.OneOf(
                    Gen.Const("0"),
                    Gen.Const("-1"),
                    Gen.Const("7"),
                    Gen.Const("99999999999"),
                    Gen.Const("1.5"),
                    Gen.Const("")
                )
            )
            .Sample(
                (which, number) =>
                {
                    var place = places[which];
                    var mutated = text[..(place.Index + 1)] + number + text[(place.Index + place.Length - 1)..];
                    var read = MusicXmlReader.Read(mutated, "f.xml").Break;
                    read?.Played();
                },
                iter: 500
            );
    }
}
