using System.Buffers.Binary;
using Rollwright.Audio;
using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Listening.Tests;

/// <summary>
/// Notes sounded by a sampled banjo: fluidsynth with the General MIDI sound font TimGM6mb (Debian packages fluidsynth,
/// timgm6mb-soundfont). Skips the running test where one of them is absent.
/// </summary>
internal static class SampledBanjo
{
    private const string SoundFont = "/usr/share/sounds/sf2/TimGM6mb.sf2";
    private const double Rings = 2.5;
    private const int TicksPerSecond = 2_000;
    private const int Banjo = 105;

    /// <param name="notes">Seconds, string (a new note on it ends the old one) and MIDI key.</param>
    public static Samples Sound(IEnumerable<(double Onset, int String, int Key)> notes)
    {
        Assert.SkipUnless(File.Exists(SoundFont), $"needs {SoundFont} (Debian: timgm6mb-soundfont), which is not here");
        var folder = Directory.CreateTempSubdirectory();
        try
        {
            var (midi, wave) = (Path.Combine(folder.FullName, "take.mid"), Path.Combine(folder.FullName, "take.wav"));
            File.WriteAllBytes(midi, Midi([.. notes]));
            string[] arguments =
            [
                "-niq",
                "-R",
                "0",
                "-C",
                "0",
                "-g",
                "0.5",
                "-r",
                "44100",
                "-F",
                wave,
                SoundFont,
                midi,
            ];
            var (code, _, error) = Outside.Run("fluidsynth", arguments);
            code.Should().Be(0, error);
            return WavReader.Read(File.ReadAllBytes(wave));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static byte[] Midi(List<(double Onset, int String, int Key)> notes)
    {
        var events = new List<(int Tick, int Turn, byte[] Bytes)>();
        for (var channel = 0; channel < 5; channel++)
            events.Add((0, 0, [(byte)(0xC0 + channel), Banjo]));
        foreach (var (onset, banjoString, key) in notes)
        {
            var channel = banjoString - 1;
            var next = notes.Where(note => note.String == banjoString && note.Onset > onset).Select(note => note.Onset);
            var end = Math.Min(onset + Rings, next.DefaultIfEmpty(double.MaxValue).Min());
            events.Add((Tick(onset), 2, [(byte)(0x90 + channel), (byte)key, 92]));
            events.Add((Tick(end), 1, [(byte)(0x80 + channel), (byte)key, 0]));
        }
        // Half a second a quarter note.
        var track = new List<byte> { 0, 0xFF, 0x51, 3, 7, 0xA1, 0x20 };
        var now = 0;
        foreach (var (tick, _, bytes) in events.OrderBy(one => one.Tick).ThenBy(one => one.Turn))
        {
            track.AddRange(VariableLength(tick - now));
            track.AddRange(bytes);
            now = tick;
        }
        track.AddRange([.. VariableLength(TicksPerSecond), 0xFF, 0x2F, 0]);
        var length = new byte[4];
        BinaryPrimitives.WriteInt32BigEndian(length, track.Count);
        return [.. "MThd"u8, 0, 0, 0, 6, 0, 0, 0, 1, 3, 0xE8, .. "MTrk"u8, .. length, .. track];
    }

    private static int Tick(double seconds) => (int)Math.Round(seconds * TicksPerSecond);

    private static byte[] VariableLength(int value)
    {
        var bytes = new List<byte> { (byte)(value & 0x7F) };
        while ((value >>= 7) > 0)
            bytes.Insert(0, (byte)((value & 0x7F) | 0x80));
        return [.. bytes];
    }
}
