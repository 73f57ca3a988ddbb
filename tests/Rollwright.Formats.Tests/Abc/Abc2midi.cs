using System.Text.RegularExpressions;
using Rollwright.Formats.Tests.Midi;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Formats.Tests.Abc;

/// <summary>
/// What abc2midi (Debian package abcmidi), an outside player of ABC, makes of a tune, in a form that our reading can
/// be held against.
/// </summary>
public static partial class Abc2midi
{
    /// <summary>
    /// Onsets and lengths may differ by this part of a quarter note. abc2midi puts the first note one tick late and
    /// ends each one early (2/480 in all), and rounds triplets to ticks.
    /// </summary>
    public const double Tolerance = 4 / 480.0;

    /// <summary>abc2midi strums the notes of a chord, 10/480 of a quarter apart: the top one of up to four comes last.</summary>
    public const double Strum = 30 / 480.0;

    /// <summary>The melody: the highest of the notes that come together on the lowest channel.</summary>
    public static List<MidiNotes.Sound> Melody(string abc, out string said)
    {
        var file = Play(abc, out said);
        var notes = file.Length > 0 ? MidiNotes.Read(file) : [];
        var lead = notes.Select(note => note.Channel).DefaultIfEmpty(1).Min();
        var melody = new List<MidiNotes.Sound>();
        foreach (var note in notes.Where(note => note.Channel == lead))
        {
            if (melody.Count > 0 && note.At - melody[^1].At <= Strum)
                melody[^1] = note.Key > melody[^1].Key ? note : melody[^1];
            else
                melody.Add(note);
        }
        // A tie over a repeat sign is held on every pass, also into notes that follow it on one pass only; a
        // melody is one line, so what another note cuts off is cut off.
        for (var i = 0; i + 1 < melody.Count; i++)
            melody[i] = melody[i] with { Length = Math.Min(melody[i].Length, melody[i + 1].At - melody[i].At) };
        return melody;
    }

    /// <summary>The MIDI file that it writes for the tune as it stands; empty where it writes none.</summary>
    public static byte[] Play(string abc, out string said)
    {
        var midi = Path.GetTempFileName();
        var plain = Path.GetTempFileName();
        try
        {
            File.WriteAllText(plain, Plain(abc));
            // Neither chord accompaniment nor grace notes nor the doubling of notes under a fermata.
            said = Outside.Run("abc2midi", plain, "-NGUI", "-NGRA", "-NFER", "-o", midi).Out;
            return File.ReadAllBytes(midi);
        }
        finally
        {
            File.Delete(midi);
            File.Delete(plain);
        }
    }

    /// <summary>
    /// The text without what abc2midi performs but the standard writes no other notes for: it swings all even notes
    /// under R:hornpipe, plays rolls and trills out, and halves staccato notes.
    /// </summary>
    private static string Plain(string abc) =>
        string.Join(
            '\n',
            abc.Split('\n')
                .Where(line => !line.StartsWith("R:", StringComparison.Ordinal))
                .Select(line => FieldLine().IsMatch(line) ? line : Ornament().Replace(line, ""))
        );

    /// <summary>
    /// abc2midi makes one note of the two that a tie over a repeat sign joins, on every pass: when the repeat is
    /// taken, the first rings into the return, and the second is missing. Where a tune has one, the tie is taken out
    /// of the text that both read; what we make of it is claimed in a test of its own.
    /// </summary>
    public static string WithoutTiesOverRepeats(string abc) => TieOverRepeat().Replace(abc, "");

    [GeneratedRegex("-(?= *[|]?:)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex TieOverRepeat();

    [GeneratedRegex("^[A-Za-z]:[^|:]", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex FieldLine();

    [GeneratedRegex(
        "~|\\.(?=[A-Ga-g^_=[(])|!(?:trill|roll|.?mordent|lowermordent|uppermordent|turn)!|T(?=[A-Ga-g^_=(])",
        RegexOptions.ExplicitCapture,
        1000
    )]
    private static partial Regex Ornament();

    /// <summary>The first difference in words, or null where both say the same.</summary>
    public static string? Difference(IReadOnlyList<PlayedNote> ours, List<MidiNotes.Sound> theirs)
    {
        for (var i = 0; i < Math.Min(ours.Count, theirs.Count); i++)
        {
            var at = ours[i].At.ToDouble() * 4;
            var length = ours[i].Length.ToDouble() * 4;
            var (late, early) = (theirs[i].At - at, length - theirs[i].Length);
            var isSame =
                ours[i].Pitch.Midi == theirs[i].Key
                && late >= -Tolerance
                && late <= Tolerance + Strum
                // A strummed note ends when its chord does: as much shorter as it is later.
                && Math.Abs(early - Math.Max(0, late)) <= Tolerance;
            if (!isSame)
                return $"note {i}, bar {ours[i].Bar}: ours {ours[i].Pitch} at {at:0.###} for {length:0.###}, "
                    + $"theirs key {theirs[i].Key} at {theirs[i].At:0.###} for {theirs[i].Length:0.###}";
        }
        return ours.Count == theirs.Count ? null : $"ours {ours.Count} notes, theirs {theirs.Count}";
    }
}
