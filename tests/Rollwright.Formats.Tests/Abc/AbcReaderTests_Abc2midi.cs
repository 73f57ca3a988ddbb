using Rollwright.Formats.Abc;
using Rollwright.Formats.Messages;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>Our reading of ABC 2.1 (the standard of December 2011) against abc2midi, an outside player of it.</summary>
public class AbcReaderTests_Abc2midi
{
    [Fact]
    public void Every_tune_unfolds_to_what_abc2midi_plays()
    {
        var folder = Places.NeedShared("tunes");
        var differences = new List<string>();
        var count = 0;
        foreach (var file in Directory.GetFiles(folder, "*.abc").Order(StringComparer.Ordinal))
        {
            count++;
            var text = Abc2midi.WithoutTiesOverRepeats(File.ReadAllText(file));
            var reading = AbcReader.Read(text, Path.GetFileName(file));
            reading.Messages.Where(message => message.Severity == Severity.Error).Should().BeEmpty();
            var tune = reading.Tunes.Should().ContainSingle().Subject;
            if (Abc2midi.Difference(tune.Played(), Abc2midi.Melody(text, out _)) is { } difference)
                differences.Add($"{Path.GetFileName(file)}: {difference}");
        }
        string.Join('\n', differences).Should().BeEmpty();
        count.Should().BeGreaterThan(40);
    }
}
