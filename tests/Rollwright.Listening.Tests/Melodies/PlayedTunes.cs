using System.Buffers.Binary;
using System.Diagnostics;
using System.Globalization;
using Rollwright.Audio.Reading;
using Rollwright.Formats.Abc;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Listening.Tests.Melodies;

/// <summary>Tunes played by fluidsynth on the instruments of a sound font, and what was played, in seconds.</summary>
internal static class PlayedTunes
{
    /// <summary>Programs of General MIDI, counted from 0.</summary>
    public const int Fiddle = 40;

    /// <inheritdoc cref="Fiddle"/>
    public const int Whistle = 78;

    public static readonly string[] Fonts =
    [
        "/usr/share/sounds/sf2/TimGM6mb.sf2",
        "/usr/share/sounds/sf2/FluidR3_GM.sf2",
    ];

    public readonly record struct Truth(double Onset, double End, int Key);

    /// <summary>The first tune of a file in ABC.</summary>
    public static Tune Read(string path) => AbcReader.Read(File.ReadAllBytes(path), path).Tunes[0];

    /// <summary>Seconds of a whole note: the tempo that the tune asks for, or one that dancers like (assumption).</summary>
    public static double SecondsPerWhole(Tune tune) =>
        tune.Tempo is { } tempo ? tempo.SecondsPerWhole
        : tune.Time.IsCompound ? 60 / 110.0 * 8 / 3
        : tune.Time == new TimeSignature(3, 4) ? 60 / 110.0 * 4
        : tune.Time == new TimeSignature(2, 4) ? 60 / 95.0 * 4
        : 60 / 190.0 * 4;

    /// <summary>What is played: each note to 0.92 of its length.</summary>
    public static List<Truth> Notes(Tune tune, double secondsPerWhole) =>
        [
            .. tune.Played()
                .Select(note => new Truth(
                    0.3 + (note.At.ToDouble() * secondsPerWhole),
                    0.3 + ((note.At.ToDouble() + (0.92 * note.Length.ToDouble())) * secondsPerWhole),
                    note.Pitch.Midi
                )),
        ];

    /// <summary>The sound as a file of one's own that the caller deletes.</summary>
    public static string Sounded(IReadOnlyList<Truth> notes, int program, string font)
    {
        var (midi, wav) = (Path.GetTempFileName(), Path.GetTempFileName());
        File.WriteAllBytes(midi, Midi(notes, program));
        string[] plain = ["-o", "synth.reverb.active=0", "-o", "synth.chorus.active=0"];
        using var process = Process.Start(
            new ProcessStartInfo(
                "fluidsynth",
                ["-ni", "-q", "-r", "44100", "-T", "wav", .. plain, "-F", wav, font, midi]
            )
            {
                UseShellExecute = false,
                RedirectStandardError = true,
                RedirectStandardOutput = true,
            }
        )!;
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        File.Delete(midi);
        return wav;
    }

    public static ISoundSource Open(string path) => SoundFile.Open(File.OpenRead(path)).ToMono().AtRate(22_050);

    // Format 0, a tick a millisecond.
    private static byte[] Midi(IReadOnlyList<Truth> notes, int program)
    {
        var events = notes
            .SelectMany(note =>
                new (int At, byte[] Bytes)[]
                {
                    ((int)Math.Round(note.Onset * 1_000), [0x90, (byte)note.Key, 90]),
                    ((int)Math.Round(note.End * 1_000), [0x80, (byte)note.Key, 0]),
                }
            )
            .OrderBy(item => item.At)
            .ThenBy(item => item.Bytes[0]);
        using var track = new MemoryStream();
        // A quarter lasts 500 ms and has 500 ticks.
        track.Write([0, 0xff, 0x51, 3, 0x07, 0xa1, 0x20, 0, 0xc0, (byte)program]);
        var now = 0;
        foreach (var (at, bytes) in events)
        {
            WriteLength(track, at - now);
            track.Write(bytes);
            now = at;
        }
        track.Write([0x87, 0x68, 0xff, 0x2f, 0]);
        var length = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(length, (int)track.Length);
        return [.. "MThd"u8, 0, 0, 0, 6, 0, 0, 0, 1, 0x01, 0xf4, .. "MTrk"u8, .. length, .. track.ToArray()];
    }

    private static void WriteLength(MemoryStream track, int ticks)
    {
        for (var shift = 21; shift > 0; shift -= 7)
            if (ticks >> shift > 0)
                track.WriteByte((byte)(0x80 | (ticks >> shift & 0x7f)));
        track.WriteByte((byte)(ticks & 0x7f));
    }

    /// <summary>
    /// F of notes whose onset is within 50 ms and whose pitch is within half a semitone (mir_eval's definition without
    /// offsets): greatest matching; both sides are one line, so that going through them in time finds it.
    /// </summary>
    public static double NoteF(IReadOnlyList<Truth> truth, IReadOnlyList<(double Onset, int Key)> heard)
    {
        var used = new bool[heard.Count];
        var right = 0;
        foreach (var note in truth)
        {
            for (var i = 0; i < heard.Count; i++)
            {
                if (used[i] || heard[i].Key != note.Key || Math.Abs(heard[i].Onset - note.Onset) > 0.05)
                    continue;
                (used[i], right) = (true, right + 1);
                break;
            }
        }
        return truth.Count + heard.Count == 0 ? 1 : 2.0 * right / (truth.Count + heard.Count);
    }

    /// <summary>
    /// How alike two tunes are in order of play: the part of notes that have the same pitch, place in their bar (in eighths)
    /// and place in the tune; whether all have; whether the bars are as long and begin at the same places. Cut time, 4/4
    /// and 2/4 sound alike: a 2/4 of sixteenths is held against 4/4 of eighths.
    /// </summary>
    public static (double Part, bool AreEqual, bool IsMetreEqual) Alike(Tune written, Tune heard)
    {
        var double2 = written.Time == new TimeSignature(2, 4) ? 2 : 1;
        var (one, other) = (Placed(written, double2), Placed(heard, 1));
        var same = one.Intersect(other).Count();
        var part = 2.0 * same / (one.Count + other.Count);
        var bars = (written.Time.Bar * double2, heard.Time.Bar);
        var isCompound = written.Time.IsCompound == heard.Time.IsCompound;
        // Bars begin at the same places: the pickup is as long.
        var pickups = (Pickup(written, double2), Pickup(heard, 1));
        return (part, part > 0.999, bars.Item1 == bars.Item2 && isCompound && pickups.Item1 == pickups.Item2);
    }

    private static Fraction Pickup(Tune tune, int times)
    {
        var bar = tune.Bars[tune.Order[0]];
        return bar.IsPartial ? bar.Length * times : Fraction.Zero;
    }

    private static HashSet<(Fraction At, int Key)> Placed(Tune tune, int times)
    {
        var played = tune.Played();
        return [.. played.Select(note => ((note.At - played[0].At) * times, note.Pitch.Midi))];
    }
}
