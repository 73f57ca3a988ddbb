using System.Buffers.Binary;
using Rollwright.Formats.Messages;

namespace Rollwright.Formats.Midi;

/// <summary>Finds the tracks of a standard MIDI file, also where a length is wrong or the file is cut off, and reads them.</summary>
internal static class TrackFinder
{
    private const int Head = 8;

    /// <param name="bytes">A file whose header was found good.</param>
    /// <param name="ticksPerQuarter">At least 1.</param>
    /// <param name="log">Takes what was skipped.</param>
    /// <returns>The events of each track, in order of time.</returns>
    public static List<List<MidiEvent>> Read(byte[] bytes, int ticksPerQuarter, MessageLog log)
    {
        var tracks = new List<List<MidiEvent>>();
        var place = (int)Math.Min(bytes.Length, Head + (long)Length(bytes, 4));
        while (place < bytes.Length)
        {
            var start = Find(bytes, place);
            if (start < 0)
                break;
            var from = start + Head;
            if (from > bytes.Length)
                break;
            var end = from + (long)Length(bytes, start + 4);
            var number = tracks.Count + 1;
            if (end > bytes.Length || (end < bytes.Length && !IsChunk(bytes, (int)end)))
            {
                // Up to the next track, or to the end of the file.
                var next = Find(bytes, from);
                end = next < 0 ? bytes.Length : next;
                log.Warning(
                    number,
                    1,
                    $"track {number}: its length is wrong, or the file is cut off; it is read as far as it goes",
                    "write the file anew if notes are missing"
                );
            }
            tracks.Add(new TrackReader(bytes, number, ticksPerQuarter, log).Read(from, (int)end));
            place = (int)end;
        }
        return tracks;
    }

    private static uint Length(byte[] bytes, int at) =>
        at + 4 <= bytes.Length ? BinaryPrimitives.ReadUInt32BigEndian(bytes.AsSpan(at)) : 0;

    private static int Find(byte[] bytes, int from)
    {
        var found = bytes.AsSpan(from).IndexOf("MTrk"u8);
        return found < 0 ? -1 : from + found;
    }

    // Chunks of other kinds may stand between tracks; their names are letters.
    private static bool IsChunk(byte[] bytes, int at) =>
        at + Head <= bytes.Length && bytes.AsSpan(at, 4).IndexOfAnyExceptInRange((byte)' ', (byte)'~') < 0;
}
