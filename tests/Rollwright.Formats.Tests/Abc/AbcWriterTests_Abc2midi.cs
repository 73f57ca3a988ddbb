using Rollwright.Formats.Abc;
using Rollwright.Formats.Tests.Midi;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>What we write in ABC as abc2midi (Debian package abcmidi) hears it: without warning, the same notes.</summary>
public class AbcWriterTests_Abc2midi
{
    [Fact]
    public void Every_tune_is_heard_as_it_was_without_a_warning_that_the_tune_itself_does_not_deserve()
    {
        var faults = new List<string>();
        foreach (var (name, tune) in GivenTunes.All())
        {
            var heard = Abc2midi.Melody(AbcWriter.Write(tune), out var said);
            if (Abc2midi.Difference(tune.Played(), heard) is { } difference)
                faults.Add($"{name}: {difference}");
            faults.AddRange(Warnings(said, tune).Select(warning => $"{name}: {warning}"));
        }
        string.Join('\n', faults).Should().BeEmpty();
    }

    [Fact]
    public void The_notes_of_a_break_are_heard_at_their_times()
    {
        var faults = new List<string>();
        foreach (var (name, tune) in GivenTunes.All())
        {
            var played = GivenTunes.AsBreak(tune);
            var file = Abc2midi.Play(AbcWriter.Write(played), out var said);
            faults.AddRange(Warnings(said, tune).Select(warning => $"{name}: {warning}"));
            var ours = played
                .Played()
                .Select(one => (At: one.At.ToDouble() * 4, Key: played.KeyOf(one.Stroke)))
                .Distinct()
                .OrderBy(one => one.At)
                .ThenBy(one => one.Key)
                .ToList();
            var theirs = MidiNotes.Read(file).ToList();
            var late = ours.Zip(theirs)
                .FirstOrDefault(pair =>
                    pair.First.Key != pair.Second.Key
                    || Math.Abs(pair.First.At - pair.Second.At) > Abc2midi.Tolerance + Abc2midi.Strum
                );
            if (ours.Count != theirs.Count || late != default)
                faults.Add($"{name}: {ours.Count} and {theirs.Count} notes; {late}");
        }
        string.Join('\n', faults).Should().BeEmpty();
    }

    // A tune whose bars do not fill their metre is told so by any strict reader, and rightly.
    private static IEnumerable<string> Warnings(string said, Tune tune) =>
        said.Split('\n')
            .Where(line =>
                line.StartsWith("Warning", StringComparison.Ordinal)
                || line.StartsWith("Error", StringComparison.Ordinal)
            )
            .Where(line =>
                !line.Contains("time units while", StringComparison.Ordinal) || tune.Bars.All(bar => !bar.IsPartial)
            );
}
