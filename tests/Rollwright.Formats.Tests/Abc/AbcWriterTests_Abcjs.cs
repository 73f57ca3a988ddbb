using System.Diagnostics;
using System.Text.Json;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>What we write in ABC as abcjs (a package of npm, test-only, see abcjs/package.json) hears it.</summary>
public class AbcWriterTests_Abcjs
{
    // abcjs rounds to a millionth of a whole note, event by event.
    private const double Tolerance = 0.001;

    [Fact]
    public void Every_tune_is_heard_as_it_was_without_a_warning()
    {
        var tunes = GivenTunes.All().ToList();
        var heard = Hear(tunes.Select(item => AbcWriter.Write(item.Tune)));
        var faults = new List<string>();
        foreach (var ((name, tune), item) in tunes.Zip(heard))
        {
            faults.AddRange(item.Warnings.Select(warning => $"{name}: {warning}"));
            faults.AddRange(
                Difference(item.Notes, [.. tune.Played().Select(note => (note.At.ToDouble(), note.Pitch.Midi))], name)
            );
        }
        string.Join('\n', faults).Should().BeEmpty();
    }

    [Fact]
    public void The_notes_of_a_break_are_heard_at_their_times()
    {
        var breaks = GivenTunes.All().Select(item => (item.Name, Break: GivenTunes.AsBreak(item.Tune))).ToList();
        var heard = Hear(breaks.Select(item => AbcWriter.Write(item.Break)));
        var faults = new List<string>();
        foreach (var ((name, played), item) in breaks.Zip(heard))
        {
            faults.AddRange(item.Warnings.Select(warning => $"{name}: {warning}"));
            faults.AddRange(
                Difference(
                    item.Notes,
                    [.. played.Played().Select(one => (one.At.ToDouble(), played.KeyOf(one.Stroke))).Distinct()],
                    name
                )
            );
        }
        string.Join('\n', faults).Should().BeEmpty();
    }

    private static IEnumerable<string> Difference(
        List<(double At, int Key)> theirs,
        List<(double At, int Key)> ours,
        string name
    )
    {
        if (ours.Count != theirs.Count)
            yield return $"{name}: ours {ours.Count} notes, theirs {theirs.Count}";
        var pairs = Sorted(ours).Zip(Sorted(theirs)).ToList();
        var wrong = pairs.FindIndex(pair =>
            pair.First.Key != pair.Second.Key || Math.Abs(pair.First.At - pair.Second.At) > Tolerance
        );
        if (wrong >= 0)
            yield return $"{name}: note {wrong}: ours {pairs[wrong].First}, theirs {pairs[wrong].Second}";
    }

    private static IEnumerable<(double At, int Key)> Sorted(List<(double At, int Key)> notes) =>
        notes.OrderBy(note => Math.Round(note.At, 2)).ThenBy(note => note.Key);

    // One process for all of them: starting it takes longer than reading.
    private static List<(List<string> Warnings, List<(double At, int Key)> Notes)> Hear(IEnumerable<string> texts)
    {
        Assert.SkipUnless(Outside.Has("node"), "needs the program 'node' (see ./test), which is not installed");
        var folder = Path.Combine(Places.Root, "tests", "Rollwright.Formats.Tests", "abcjs");
        Assert.SkipUnless(
            Directory.Exists(Path.Combine(folder, "node_modules", "abcjs")),
            "needs abcjs (./test installs it by npm), which is not installed"
        );
        var start = new ProcessStartInfo("node", [Path.Combine(folder, "hear.js")])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            UseShellExecute = false,
        };
        using var process = Process.Start(start)!;
        process.StandardInput.Write(JsonSerializer.Serialize(texts));
        process.StandardInput.Close();
        using var answer = JsonDocument.Parse(process.StandardOutput.ReadToEnd());
        process.WaitForExit();
        return
        [
            .. answer
                .RootElement.EnumerateArray()
                .Select(tune =>
                    (
                        tune.GetProperty("warnings").EnumerateArray().Select(one => one.ToString()).ToList(),
                        tune.GetProperty("notes")
                            .EnumerateArray()
                            .Select(note => (note[0].GetDouble(), note[1].GetInt32()))
                            .ToList()
                    )
                ),
        ];
    }
}
