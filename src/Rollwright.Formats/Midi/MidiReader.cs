using System.Collections.Immutable;
using System.Text;
using System.Text.Unicode;
using Rollwright.Formats.Messages;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Midi;

/// <summary>
/// Reads the notes of a standard MIDI file (formats 0 and 1) as a tune: one track and channel, the melody unless others are
/// asked for, brought to the grid that the notes of each beat keep best, in bars of the file's metre. Repeats are not looked
/// for: the tune stands there as it is played. An event that cannot be is skipped with a notice, and all others are read. In
/// messages the line is the track, counted from 1, and the column 1.
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
        var log = new MessageLog(fileName);
        var ticksPerQuarter = (bytes[12] << 8) | bytes[13];
        var tracks = TrackFinder.Read(bytes, ticksPerQuarter, log);
        return Read(tracks, ticksPerQuarter, log, choice ?? MidiChoice.Melody);
    }

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

    private static TuneReading Read(
        List<List<MidiEvent>> tracks,
        int ticksPerQuarter,
        MessageLog log,
        MidiChoice choice
    )
    {
        var sounds = new SoundCollector(tracks, ticksPerQuarter, choice, log).Collect();
        if (sounds.Count == 0)
        {
            log.Error(1, 1, "the file holds no note" + Of(choice), "choose another track or channel, or all");
            return new(null, null, log.Messages);
        }
        var facts = tracks.SelectMany(track => track).OfType<MetaEvent>().ToLookup(fact => fact.Kind);
        var bars = new BarMap(facts[MetaEvent.Metre].OrderBy(fact => fact.At), ticksPerQuarter, choice.Pickup, log);
        var key = KeyOf(facts[MetaEvent.Key].MinBy(fact => fact.At));
        var name = facts[MetaEvent.TrackName].FirstOrDefault() is { } named ? TextOf(named.Data) : "";
        var written = bars.Write(Quantised(sounds, log), key ?? new Key(new(Letter.C)));
        return new(
            new Tune
            {
                Title = name.Length == 0 ? "Untitled" : name,
                Key = key ?? new Key(new(Letter.C)),
                IsKeyGiven = key is not null,
                Time = written[0].Time,
                Tempo = TempoOf([.. facts[MetaEvent.Tempo].OrderBy(fact => fact.At)], written[0].Time, log),
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

    private static Tempo? TempoOf(List<MetaEvent> tempos, TimeSignature time, MessageLog log)
    {
        if (tempos.Count == 0 || !(PerMinute(tempos[0]) is >= 1 and <= 4000))
            return null;
        if (tempos.Exists(one => !one.Data.AsSpan().SequenceEqual(tempos[0].Data.AsSpan())))
            log.NoteOnce(1, 1, "changes of tempo are kept aside");
        // From microseconds a quarter, rounded so that 80 does not come back as 79.99.
        var perMinute = PerMinute(tempos[0]) / (time.Beat.ToDouble() * 4);
        return new(time.Beat, Math.Round(perMinute, 2));
    }

    // Three bytes of microseconds a quarter note, to quarter notes a minute.
    private static double PerMinute(MetaEvent tempo) =>
        60e6 / ((tempo.Data[0] << 16) | (tempo.Data[1] << 8) | tempo.Data[2]);

    // Sharps or flats, and major or minor.
    private static Key? KeyOf(MetaEvent? signature)
    {
        if (signature is null || (sbyte)signature.Data[0] is var fifths && fifths is < -7 or > 7)
            return null;
        var isMinor = signature.Data[1] == 1;
        return new(PitchName.FromFifths(fifths + (isMinor ? 3 : 0)), isMinor ? Mode.Minor : Mode.Major);
    }

    // The standard says ASCII; programs write UTF-8 or Latin-1.
    private static string TextOf(ImmutableArray<byte> bytes)
    {
        var text = Utf8.IsValid(bytes.AsSpan())
            ? Encoding.UTF8.GetString(bytes.AsSpan())
            : Encoding.Latin1.GetString(bytes.AsSpan());
        return string.Concat(text.Where(letter => !char.IsControl(letter))).Trim();
    }
}
