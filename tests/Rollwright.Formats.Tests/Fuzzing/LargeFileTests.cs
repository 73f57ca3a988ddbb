using System.Text;
using Rollwright.Formats.Abc;
using Rollwright.Formats.Json;
using Rollwright.Formats.Midi;
using Rollwright.Formats.TextTab;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Fuzzing;

/// <summary>The largest files that are let in, made to be as hard as can be: still two seconds and 256 MB at most.</summary>
public class LargeFileTests
{
    [Theory]
    [InlineData("{\"a\":[", "0,", "0]}")]
    [InlineData("{\"a\":[", "[],", "[]]}")]
    [InlineData("{\"a\":[", "{\"b\":1},", "0]}")]
    [InlineData(
        "{\"format\":\"rollwright break\",\"version\":1,\"bars\":[",
        "{\"length\":\"1\",\"time\":\"4/4\",\"strokes\":[]},",
        "0]}"
    )]
    public void Json_of_nothing_but_values(string head, string again, string tail)
    {
        var text = head + Many(again, (JsonReader.MostBytes - 100) / again.Length) + tail;
        Bounds.Fault(() => JsonReader.Read(text, "large.json").Break.Should().BeNull()).Should().BeNull();
    }

    [Theory]
    [InlineData("-0", 1)]
    [InlineData("-0|", 1)]
    [InlineData("-2h4", 1)]
    [InlineData("|-0-|\n", 5)]
    public void A_page_of_nothing_but_tab(string again, int perSystem)
    {
        var line = Many(again, TextTabReader.MostCharacters / 5 / again.Length - 10);
        var text =
            perSystem == 1
                ? string.Join('\n', Enumerable.Repeat(line, 5))
                : Many(Many(again, 5) + "\n", TextTabReader.MostCharacters / (again.Length * 5 + 1) - 1);
        Bounds.Fault(() => TextTabReader.Read(text, "large.tab")).Should().BeNull();
    }

    [Theory]
    [InlineData("a")]
    [InlineData("Key: A ")]
    [InlineData("G ")]
    [InlineData("1 & ")]
    [InlineData("[1,")]
    [InlineData("Part ")]
    public void A_page_of_nothing_but_words(string again)
    {
        var words = Many(again, (TextTabReader.MostCharacters / 2 - 200) / again.Length);
        const string System = "|-0-|\n|---|\n|---|\n|---|\n|---|\n";
        Bounds.Fault(() => TextTabReader.Read(words + "\n" + System + words, "words.tab")).Should().BeNull();
    }

    [Theory]
    [InlineData("C")]
    [InlineData("Z99|")]
    [InlineData("[ceg]")]
    [InlineData("\"Am\"")]
    [InlineData("|:C:|")]
    public void A_tune_of_nothing_but_one_thing(string again)
    {
        var text = "X:1\nT:Large\nK:G\n" + Many(again, 2_000_000 / again.Length) + "\n";
        Bounds.Fault(() => AbcReader.Read(text, "large.abc")).Should().BeNull();
    }

    // A track of running status: every three bytes are a note that begins or ends.
    [Fact]
    public void A_track_of_nothing_but_notes()
    {
        var count = ((MidiReader.MostBytes - 40) / 6 * 2) - 1;
        var length = (count * 3) + 8;
        var bytes = new List<byte>(MidiReader.MostBytes);
        bytes.AddRange("MThd"u8);
        bytes.AddRange([0, 0, 0, 6, 0, 0, 0, 1, 0, 96]);
        bytes.AddRange("MTrk"u8);
        bytes.AddRange([(byte)(length >> 24), (byte)(length >> 16), (byte)(length >> 8), (byte)length]);
        bytes.AddRange([0, 0x90, 60, 80]);
        for (var i = 1; i < count; i++)
            bytes.AddRange([8, 60, (byte)(i % 2 == 0 ? 80 : 0)]);
        bytes.AddRange([8, 60, 0, 0, 0xFF, 0x2F, 0]);
        byte[] file = [.. bytes];
        Bounds
            .Fault(() =>
                MidiReader
                    .Read(file, "large.mid")
                    .Messages.Should()
                    .Contain(said => said.What.StartsWith($"more than {MidiReader.MostNotes} notes"))
            )
            .Should()
            .BeNull();
    }

    private static string Many(string text, int times) => new StringBuilder().Insert(0, text, times).ToString();
}
