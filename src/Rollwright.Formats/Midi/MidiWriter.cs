using Rollwright.Banjo.Breaks;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.Midi;

/// <summary>
/// Writes a break as it is played into a standard MIDI file (format 0): the banjo alone on one channel, repeats
/// taken, swung where the break swings, time 0 the start of the first bar, no count-in.
/// </summary>
public static class MidiWriter
{
    /// <summary>Ticks of a quarter note; triplets, sixteenths and their halves come out whole.</summary>
    public const int TicksPerQuarter = 960;

    /// <summary>Banjo of General MIDI, 106 when counted from 1, as sent.</summary>
    public const int BanjoProgram = 105;

    // How hard notes sound, 1 to 127: our own choice. The tune stands out, slurred notes are softer than plucked ones.
    private const int MelodyVelocity = 104;
    private const int PluckVelocity = 88;
    private const int SlurVelocity = 72;

    public static byte[] Write(Break played)
    {
        var track = new MidiTrack();
        track.Text(3, played.Title);
        track.Tempo(0, played.Tempo.SecondsPerWhole / 4);
        WriteTimes(played, track);
        var key = played.Setting.SoundingKey;
        track.Key(Math.Clamp(key.Fifths, -7, 7), key.Mode == Mode.Minor);
        track.Program(BanjoProgram);
        foreach (var note in Sounds(played))
            track.Note(note.On, note.Off, note.Key, note.Velocity);
        return track.File(TicksPerQuarter);
    }

    private static long Ticks(Fraction time) => (long)Math.Round(time.ToDouble() * 4 * TicksPerQuarter);

    private static void WriteTimes(Break played, MidiTrack track)
    {
        var at = Fraction.Zero;
        TimeSignature? before = null;
        foreach (var index in played.Order)
        {
            var bar = played.Bars[index];
            if (bar.Time != before)
                track.Time(Ticks(at), bar.Time.Beats, bar.Time.Unit);
            before = bar.Time;
            at += bar.Length;
        }
    }

    // A string rings until it is played again, at most a bar; one key sounds once at a time on a channel.
    private static List<(long On, long Off, int Key, int Velocity)> Sounds(Break played)
    {
        var sounds = new List<(long On, long Off, int Key, int Velocity)>();
        var byString = new Dictionary<int, int>();
        var byKey = new Dictionary<int, int>();
        var swung = SwungTime.Of(played);
        foreach (var (at, stroke, bar, _) in played.Played())
        {
            var on = Ticks(swung.At(at));
            var key = Math.Clamp(played.KeyOf(stroke), 0, 127);
            EndAt(byString, stroke.String, on, sounds);
            if (byKey.TryGetValue(key, out var same) && sounds[same].On == on)
                continue;
            EndAt(byKey, key, on, sounds);
            var velocity =
                stroke.IsMelody ? MelodyVelocity
                : stroke.Slur is null ? PluckVelocity
                : SlurVelocity;
            byString[stroke.String] = byKey[key] = sounds.Count;
            sounds.Add((on, on + Ticks(played.Bars[bar].Time.Bar), key, velocity));
        }
        return sounds;
    }

    private static void EndAt(
        Dictionary<int, int> open,
        int which,
        long time,
        List<(long On, long Off, int Key, int Velocity)> sounds
    )
    {
        if (!open.TryGetValue(which, out var index))
            return;
        var sound = sounds[index];
        if (time > sound.On)
            sounds[index] = sound with { Off = Math.Min(sound.Off, time) };
    }
}
