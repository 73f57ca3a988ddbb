using System.Collections.Immutable;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.Midi;

/// <summary>
/// Reads the events of one track. An event that cannot be is skipped with a notice that says where, and all others stay;
/// only where nobody can tell at which byte the next one begins is the rest of the track let go.
/// </summary>
internal sealed class TrackReader(byte[] bytes, int track, int ticksPerQuarter, MessageLog log)
{
    /// <summary>Ticks; the longest time that the standard writes between two events, a day and more of music.</summary>
    private const long LatestTick = 1 << 28;

    private readonly List<MidiEvent> events = [];
    private int place;
    private long now;

    // The status that holds on for events which bring none of their own.
    private int running;

    /// <param name="from">First byte of the events.</param>
    /// <param name="end">The byte after the last that the track may have.</param>
    public List<MidiEvent> Read(int from, int end)
    {
        place = from;
        while (place < end)
        {
            if (Number(end) is not { } wait)
                return Cut("a time");
            now += wait;
            if (now > LatestTick)
                return LetGo("a time that no tune reaches");
            if (place >= end)
                return Cut("an event");
            var first = bytes[place];
            if (first < 0x80 && running == 0)
            {
                Skip($"{first} stands where an event should begin");
                while (place < end && bytes[place] < 0x80)
                    place++;
                // The time before the event that is found here is gone with what was skipped.
                if (place >= end || !One(end))
                    return events;
                continue;
            }
            if (!One(end))
                return events;
        }
        return events;
    }

    // One event from its first byte on; false where the track is over.
    private bool One(int end)
    {
        var status = bytes[place] >= 0x80 ? bytes[place++] : running;
        if (status < 0xF0)
        {
            running = status;
            return Played(status, end);
        }
        if (status is 0xFF or 0xF0 or 0xF7)
            return Long(status, end);
        // Messages of the wire have no place in a file; their length is known all the same.
        Skip($"a message of the wire (0x{status:X2}), which no file holds");
        place += status switch
        {
            0xF1 or 0xF3 => 1,
            0xF2 => 2,
            _ => 0,
        };
        return true;
    }

    private bool Played(int status, int end)
    {
        var kind = status & 0xF0;
        var length = kind is 0xC0 or 0xD0 ? 1 : 2;
        if (place + length > end)
        {
            Cut("an event");
            return false;
        }
        var (one, two) = (bytes[place], length == 2 ? bytes[place + 1] : (byte)0);
        place += length;
        if (kind > 0x90)
            return true;
        // Loudness over 127 is written by some programs, and is no reason to lose a note.
        if (one > 127)
            Skip($"a note of key {one}, where keys are 0 to 127");
        else
            events.Add(new KeyEvent(now, track, (status & 0x0F) + 1, one, kind == 0x90 && two > 0));
        return true;
    }

    private bool Long(int status, int end)
    {
        var kind = (byte)0;
        if (status == 0xFF && place < end)
            kind = bytes[place++];
        if (Number(end) is not { } length || place + length > end)
        {
            Cut("an event");
            return false;
        }
        var data = bytes.AsSpan(place, (int)length).ToImmutableArray();
        place += (int)length;
        if (status != 0xFF)
            return true;
        if (kind == MetaEvent.EndOfTrack)
            return false;
        if (MetaEvent.Known(kind) is var (name, needed) && data.Length != needed)
            Skip($"a {name} of {data.Length} bytes, where {needed} are needed");
        else
            events.Add(new MetaEvent(now, track, kind, data));
        return true;
    }

    // Seven bits a byte, the most significant first; all but the last have the high bit set; four at most.
    private long? Number(int end)
    {
        var value = 0L;
        for (var count = 0; place < end && count < 4; count++)
        {
            var part = bytes[place++];
            value = (value << 7) | (part & 0x7Fu);
            if (part < 0x80)
                return value;
        }
        return null;
    }

    private List<MidiEvent> Cut(string what) => LetGo($"{what} that is cut off or has no end");

    private List<MidiEvent> LetGo(string what)
    {
        log.Warning(track, 1, $"{Place}: {what}; the rest of the track is left out", "write the file anew");
        return events;
    }

    private void Skip(string what) =>
        log.Warning(track, 1, $"{Place}: {what}; it is skipped", "write the file anew, or mend that event");

    private string Place =>
        string.Create(
            System.Globalization.CultureInfo.InvariantCulture,
            $"track {track}, quarter note {1 + ((double)now / ticksPerQuarter):0.##}"
        );
}
