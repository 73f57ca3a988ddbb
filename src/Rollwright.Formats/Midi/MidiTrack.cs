using System.Buffers.Binary;
using System.Text;

namespace Rollwright.Formats.Midi;

/// <summary>Events of one track of a standard MIDI file, put in order of time when the file is made.</summary>
internal sealed class MidiTrack
{
    // Within a tick: what is said about the music first, then ends of notes, then their starts.
    private enum Turn
    {
        About,
        Off,
        On,
    }

    private readonly List<(long At, Turn Turn, byte[] Bytes)> events = [];

    public void Text(int kind, string text)
    {
        var bytes = Encoding.UTF8.GetBytes(text);
        Meta(0, (byte)kind, bytes.AsSpan(0, Math.Min(bytes.Length, 120)));
    }

    /// <param name="at">Ticks.</param>
    /// <param name="secondsPerQuarter">Written in microseconds, three bytes.</param>
    public void Tempo(long at, double secondsPerQuarter)
    {
        var micro = (int)Math.Clamp(Math.Round(secondsPerQuarter * 1e6), 1, 0xFFFFFF);
        Meta(at, 0x51, [(byte)(micro >> 16), (byte)(micro >> 8), (byte)micro]);
    }

    public void Time(long at, int beats, int unit) =>
        Meta(at, 0x58, [(byte)beats, (byte)int.Log2(unit), (byte)Math.Min(255, 96 / unit), 8]);

    public void Key(int fifths, bool isMinor) => Meta(0, 0x59, [(byte)(sbyte)fifths, (byte)(isMinor ? 1 : 0)]);

    public void Program(int program) => events.Add((0, Turn.About, [0xC0, (byte)program]));

    public void Note(long on, long off, int key, int velocity)
    {
        events.Add((on, Turn.On, [0x90, (byte)key, (byte)velocity]));
        events.Add((off, Turn.Off, [0x80, (byte)key, 0]));
    }

    public byte[] File(int ticksPerQuarter)
    {
        using var track = new MemoryStream();
        var now = 0L;
        foreach (var (at, _, bytes) in events.OrderBy(item => item.At).ThenBy(item => item.Turn))
        {
            Variable(track, at - now);
            track.Write(bytes);
            now = at;
        }
        track.Write([0, 0xFF, 0x2F, 0]);
        var file = new byte[22 + track.Length];
        "MThd"u8.CopyTo(file);
        file[7] = 6;
        file[11] = 1;
        BinaryPrimitives.WriteInt16BigEndian(file.AsSpan(12), (short)ticksPerQuarter);
        "MTrk"u8.CopyTo(file.AsSpan(14));
        BinaryPrimitives.WriteInt32BigEndian(file.AsSpan(18), (int)track.Length);
        track.ToArray().CopyTo(file.AsSpan(22));
        return file;
    }

    private void Meta(long at, byte kind, ReadOnlySpan<byte> data) =>
        events.Add((at, Turn.About, [0xFF, kind, (byte)data.Length, .. data]));

    // Seven bits a byte, the most significant first; all but the last have the high bit set.
    private static void Variable(MemoryStream to, long value)
    {
        for (var shift = 56; shift > 0; shift -= 7)
        {
            if (value >> shift > 0)
                to.WriteByte((byte)(((value >> shift) & 0x7F) | 0x80));
        }
        to.WriteByte((byte)(value & 0x7F));
    }
}
