using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>Open collections of some five thousand tunes, as published, with all their slips.</summary>
public class AbcCollectionTests(ITestOutputHelper output)
{
    [Fact]
    public void Every_collection_is_read_without_an_exception_and_nearly_every_tune_is_kept()
    {
        var folder = Places.NeedShared("collection");
        var asked = 0;
        var read = 0;
        foreach (var file in Directory.GetFiles(folder, "*.abc").Order(StringComparer.Ordinal))
        {
            var bytes = File.ReadAllBytes(file);
            var reading = AbcReader.Read(bytes, Path.GetFileName(file));
            var single = Single(File.ReadAllText(file));
            var wrong = single.Count(text => AbcReader.Read(text, "tune.abc").HasErrors);
            output.WriteLine($"{Path.GetFileName(file)}: {reading.Tunes.Length} tunes, {wrong} with errors");
            asked += single.Count;
            read += reading.Tunes.Length;
            reading.Tunes.Should().OnlyContain(tune => !tune.Played().IsEmpty);
        }
        output.WriteLine($"{read} of {asked} tunes");
        ((double)read / asked).Should().BeGreaterThan(0.995);
    }

    [Fact]
    public void A_seeded_sample_unfolds_to_what_abc2midi_plays()
    {
        var folder = Places.NeedShared("collection");
        var all = Directory
            .GetFiles(folder, "*.abc")
            .Order(StringComparer.Ordinal)
            .SelectMany(file => Single(File.ReadAllText(file)))
            .ToArray();
        new Random(20111221).Shuffle(all);
        var same = 0;
        var count = 0;
        foreach (var text in all.Select(Abc2midi.WithoutTiesOverRepeats))
        {
            var theirs = Abc2midi.Melody(text, out var said);
            if (said.Contains("Error", StringComparison.Ordinal))
                continue;
            var tunes = AbcReader.Read(text, "tune.abc").Tunes;
            var difference = tunes.Length == 1 ? Abc2midi.Difference(tunes[0].Played(), theirs) : "no tune";
            if (difference is null)
                same++;
            else
                output.WriteLine($"{(tunes.Length > 0 ? tunes[0].Title : text[..30])}: {difference}");
            if (++count == 150)
                break;
        }
        output.WriteLine($"{same} of {count} agree");
        same.Should().BeGreaterThanOrEqualTo(145);
    }

    private static List<string> Single(string file) =>
        [
            .. file.Replace("\r", "", StringComparison.Ordinal)
                .Split("\n\n", StringSplitOptions.RemoveEmptyEntries)
                .Where(text => text.Contains("X:", StringComparison.Ordinal)),
        ];
}
