using NAudio.Midi;
using Rollwright.Formats.Messages;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Midi;

/// <summary>
/// Reads the notes of a standard MIDI file (formats 0 and 1) as a tune: one track and channel, the melody unless others are asked for, brought to
/// the grid that the notes of each beat keep best, in bars of the file's metre. Repeats are not looked for: the tune stands
/// there as it is played. In messages the line is the track, counted from 1, and the column 1.
/// </summary>
public static class MidiReader
{
    /// <summary>Of a file; the notes of an hour are some hundred thousand bytes.</summary>
    public const int MostBytes = 2_000_000;

    /// <summary>Notes of a tune; more is an orchestra's evening.</summary>
    public const int MostNotes = 50_000;

    public static TuneReading Read(byte[] bytes, string fileName, MidiChoice? choice = null)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        if (Fault(bytes) is var (what, remedy))
            return TuneReading.Refused(fileName, 1, 1, what, remedy);
        try
        {
            using var stream = new MemoryStream(bytes, writable: false);
            return Read(new MidiFile(stream, strictChecking: false), fileName, choice ?? MidiChoice.Melody);
        }
        catch (Exception wrong) when (IsBrokenFile(wrong))
        {
            return TuneReading.Refused(
                fileName,
                1,
                1,
                "the MIDI file is cut off or broken within a track",
                "write the file anew from the program it comes from"
            );
        }
    }

    // What the library throws for bytes that are no events.
    private static bool IsBrokenFile(Exception wrong) =>
        wrong
            is FormatException
                or IOException
                or ArgumentException
                or InvalidOperationException
                or InvalidCastException
                or OverflowException
                or IndexOutOfRangeException
                or NullReferenceException;

    private static (string What, string Remedy)? Fault(byte[] bytes)
    {
        if (bytes.Length > MostBytes)
            return ($"the file is larger than {MostBytes / 1_000_000} MB", "give the tune alone");
        if (bytes.Length < 14 || !bytes.AsSpan(0, 4).SequenceEqual("MThd"u8))
            return ("this is no MIDI file", "give a standard MIDI file (.mid)");
        if (bytes[8] != 0 || bytes[9] > 1)
            return ("the file holds several pieces (format 2)", "save it in format 0 or 1");
        if (bytes[12] >= 128 || (bytes[12] | bytes[13]) == 0)
            return ("the file counts time in frames of film, not in beats", "save it with ticks a quarter note");
        return null;
    }

    private static TuneReading Read(MidiFile file, string fileName, MidiChoice choice)
    {
        var log = new MessageLog(fileName);
        var sounds = new SoundCollector(file, choice, log).Collect();
        if (sounds.Count == 0)
        {
            log.Error(1, 1, "the file holds no note" + Of(choice), "choose another track or channel, or all");
            return new(null, null, log.Messages);
        }
        var events = file.Events.SelectMany(track => track).OrderBy(one => one.AbsoluteTime).ToList();
        var bars = new BarMap(events.OfType<TimeSignatureEvent>(), file.DeltaTicksPerQuarterNote, choice.Pickup, log);
        var key = KeyOf(events.OfType<KeySignatureEvent>().FirstOrDefault());
        var name = file
            .Events.SelectMany(track => track)
            .OfType<TextEvent>()
            .FirstOrDefault(text => text.MetaEventType == MetaEventType.SequenceTrackName)
            ?.Text.Trim(' ', '\0', '\r', '\n');
        var written = bars.Write(Quantised(sounds, log), key ?? new Key(new(Letter.C)));
        return new(
            new Tune
            {
                Title = string.IsNullOrEmpty(name) ? "Untitled" : name,
                Key = key ?? new Key(new(Letter.C)),
                IsKeyGiven = key is not null,
                Time = written[0].Time,
                Tempo = TempoOf(events.OfType<TempoEvent>().ToList(), written[0].Time, log),
                Bars = written,
            },
            key,
            log.Messages
        );
    }

    private static List<Quantising.GridNote> Quantised(List<MidiSound> sounds, MessageLog log)
    {
        var notes = Quantising.Notes(sounds);
        var (moved, most, at) = Quantising.Moved(sounds);
        if (moved > 0)
            log.NoteOnce(
                1,
                1,
                string.Create(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"{moved} of {sounds.Count} notes were moved to the grid, at most by {most:0.00} of a quarter note (quarter {at + 1:0.##})"
                )
            );
        return notes;
    }

    private static string Of(MidiChoice choice) =>
        (choice.Track is { } track ? $" in track {track}" : "")
        + (choice.Channel is { } channel ? $" on channel {channel}" : "");

    private static Tempo? TempoOf(List<TempoEvent> tempos, TimeSignature time, MessageLog log)
    {
        if (tempos.Count == 0 || !(tempos[0].Tempo is >= 1 and <= 4000))
            return null;
        if (tempos.Exists(one => one.MicrosecondsPerQuarterNote != tempos[0].MicrosecondsPerQuarterNote))
            log.NoteOnce(1, 1, "changes of tempo are kept aside");
        // From microseconds a quarter, rounded so that 80 does not come back as 79.99.
        var perMinute = tempos[0].Tempo / (time.Beat.ToDouble() * 4);
        return new(time.Beat, Math.Round(perMinute, 2));
    }

    // Sharps or flats, and major or minor.
    private static Key? KeyOf(KeySignatureEvent? signature)
    {
        if (signature is null || signature.SharpsFlats is < -7 or > 7)
            return null;
        var isMinor = signature.MajorMinor == 1;
        return new(PitchName.FromFifths(signature.SharpsFlats + (isMinor ? 3 : 0)), isMinor ? Mode.Minor : Mode.Major);
    }
}
