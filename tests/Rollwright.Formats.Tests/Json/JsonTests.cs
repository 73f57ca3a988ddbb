using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Json;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Json;

public class JsonTests
{
    private const string Tune =
        "X:3\nT:The Kettle Path\nM:C|\nL:1/8\nQ:1/2=80\nK:Gmix\n|:\"G\"B2c2 ^c2d2-|\"D/F#\"d4 _e4:|\n";

    [Fact]
    public void A_break_read_back_is_the_break() =>
        BreakGenerator.Breaks.Sample(
            written =>
            {
                var reading = JsonReader.Read(JsonWriter.Write(written), "break.json");
                reading.Messages.Should().BeEmpty();
                reading.Break.Should().BeEquivalentTo(written, options => options.WithStrictOrdering());
            },
            iter: 60
        );

    [Fact]
    public void The_tune_travels_with_the_break()
    {
        var tune = AbcReader.Read(Tune, "tune.abc").Tunes.Single();
        var written = SampleBreaks.Small with { Bars = SampleBreaks.Small.Bars[..2], Tune = tune };
        JsonReader
            .Read(JsonWriter.Write(written), "break.json")
            .Break.Should()
            .BeEquivalentTo(written, options => options.WithStrictOrdering());
    }

    [Theory]
    [InlineData("\"string\":3", "\"string\":6", "a whole number from 1 to 5 is expected here")]
    [InlineData("\"at\":\"1/8\"", "\"at\":\"5\"", "the stroke begins after its bar is over")]
    [InlineData("\"position\": \"G major\"", "\"position\": \"H major\"", "'H major' is not a key")]
    [InlineData("\"version\": 1", "\"version\": 2", "version 2 is newer than this program")]
    [InlineData("\"right\":\"T\"", "\"right\":\"X\"", "'X' is not T, I or M")]
    public void What_is_wrong_is_said_with_its_line(string good, string bad, string what)
    {
        var text = JsonWriter.Write(SampleBreaks.Small);
        var at = text.IndexOf(good, StringComparison.Ordinal);
        at.Should().BePositive();
        var reading = JsonReader.Read(text[..at] + bad + text[(at + good.Length)..], "break.json");
        reading.Break.Should().BeNull();
        var message = reading.Messages.Should().ContainSingle().Subject;
        message.What.Should().Be(what);
        message.Remedy.Should().NotBeEmpty();
        message.Line.Should().Be(text[..at].Count(sign => sign == '\n') + 1);
    }

    [Fact]
    public void No_text_makes_the_reader_throw()
    {
        var text = JsonWriter.Write(SampleBreaks.Small);
        Gen.Select(
                Gen.Int[0, text.Length - 1],
                Gen.Int[0, 60],
                Gen.String[Gen.Char[" {}[]\",:0123eE-/nulltruefalse\uD800x"], 0, 6]
            )
            .Sample(
                (at, gone, put) =>
                {
                    var mutated = text[..at] + put + text[Math.Min(text.Length, at + gone)..];
                    var reading = JsonReader.Read(mutated, "break.json");
                    return reading.Break is not null || !reading.Messages.IsEmpty;
                }
            );
        JsonReader.Read("", "e.json").Break.Should().BeNull();
        JsonReader.Read("[[[", "e.json").Break.Should().BeNull();
        JsonReader.Read(new string('[', 100_000), "e.json").Break.Should().BeNull();
    }
}
