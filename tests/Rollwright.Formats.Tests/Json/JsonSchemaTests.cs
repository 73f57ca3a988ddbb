using CsCheck;
using Rollwright.Formats.Json;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Json;

/// <summary>The published schema (docs/break.schema.json), asked through the program jsonschema (Debian package python3-jsonschema).</summary>
public class JsonSchemaTests
{
    [Fact]
    public void Whatever_is_written_is_valid()
    {
        var texts = new List<string>();
        Gen.Select(BreakGenerator.Breaks, TuneGenerator.Tunes(8), Gen.Bool)
            .Sample(
                (played, tune, isKeyGiven) =>
                    texts.Add(
                        JsonWriter.Write(
                            played with
                            {
                                Tune = tune with { Bars = tune.Bars[..played.Bars.Length], IsKeyGiven = isKeyGiven },
                            }
                        )
                    ),
                iter: 40,
                threads: 1
            );
        texts.Add(JsonWriter.Write(SampleBreaks.SmallCapo2));
        Faults(texts).Should().BeEmpty();
    }

    // A schema that lets anything through would pass the test above.
    [Theory]
    [InlineData("\"string\":3", "\"string\":6")]
    [InlineData("\"fret\":2", "\"fret\":\"2\"")]
    [InlineData("\"right\":\"T\"", "\"right\":\"P\"")]
    [InlineData("\"position\": \"G major\"", "\"position\": \"H major\"")]
    [InlineData("\"version\": 1", "\"version\": 2")]
    [InlineData("\"capo\": 0", "\"fret\": 0")]
    [InlineData("\"at\":\"1/8\"", "\"at\":\"1/0\"")]
    public void What_the_reader_refuses_is_not_valid(string good, string bad)
    {
        var text = JsonWriter.Write(SampleBreaks.Small);
        text.Should().Contain(good);
        var changed = text.Replace(good, bad, StringComparison.Ordinal);
        JsonReader.Read(changed, "break.json").Break.Should().BeNull();
        Faults([changed]).Should().NotBeEmpty();
    }

    [Fact]
    public void Members_of_a_later_program_are_valid_and_passed_over()
    {
        var text = JsonWriter
            .Write(SampleBreaks.Small)
            .Replace("\"capo\": 0", "\"capo\": 0, \"later\": {\"a\": [1]}", StringComparison.Ordinal)
            .Replace("\"string\":3", "\"later\":null,\"string\":3", StringComparison.Ordinal);
        Faults([text]).Should().BeEmpty();
        JsonReader
            .Read(text, "later.json")
            .Break.Should()
            .BeEquivalentTo(JsonReader.Read(JsonWriter.Write(SampleBreaks.Small), "now.json").Break);
    }

    private static string Faults(List<string> texts)
    {
        var folder = Directory.CreateTempSubdirectory("schema");
        try
        {
            var arguments = new List<string>();
            for (var i = 0; i < texts.Count; i++)
            {
                var path = Path.Combine(folder.FullName, $"{i}.json");
                File.WriteAllText(path, texts[i]);
                arguments.AddRange(["-i", path]);
            }
            var schema = Path.Combine(Places.Root, "docs", "break.schema.json");
            var (code, said, wrong) = Outside.Run("jsonschema", [.. arguments, schema]);
            return code == 0 ? "" : said + wrong;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
