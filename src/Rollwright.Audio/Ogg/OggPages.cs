using System.Buffers.Binary;

namespace Rollwright.Audio.Ogg;

/// <summary>Pages of an Ogg file in their order (RFC 3533); bytes that are no page, or a page with a wrong check, are passed over.</summary>
internal sealed class OggPages(Stream stream)
{
    private const int HeadBytes = 27;
    private const int MostBytes = HeadBytes + 255 + (255 * 255);
    private const byte LastPage = 4;

    private readonly byte[] buffer = new byte[2 * MostBytes];
    private int start;
    private int end;
    private bool isDone;

    /// <param name="Serial">Of its logical stream.</param>
    /// <param name="Number">Counted from 0 in its stream.</param>
    /// <param name="Granule">The stream's time at its end; -1 where no packet ends on it.</param>
    /// <param name="Continues">Whether its first segment goes on with the packet before.</param>
    /// <param name="IsLast">Whether its stream ends with it.</param>
    /// <param name="Segments">Their lengths.</param>
    /// <param name="Content">All segments, one behind the other.</param>
    public sealed record Page(
        uint Serial,
        uint Number,
        long Granule,
        bool Continues,
        bool IsLast,
        byte[] Segments,
        byte[] Content
    );

    /// <summary>The next page; null at the end.</summary>
    public Page? Next()
    {
        while (true)
        {
            Fill();
            var rest = buffer.AsSpan(start, end - start);
            var at = rest.IndexOf("OggS"u8);
            if (at < 0 || rest.Length - at < HeadBytes)
            {
                if (isDone)
                    return null;
                start = at < 0 ? Math.Max(start, end - 3) : start + at;
                continue;
            }
            start += at;
            if (PageAt(rest[at..]) is { } page)
                return page;
            start++;
        }
    }

    /// <summary>Whether the last page of a file says that its stream ends; the place of the stream is kept.</summary>
    public static bool EndsWell(Stream stream)
    {
        var place = stream.Position;
        stream.Position = Math.Max(0, stream.Length - (2 * MostBytes));
        var pages = new OggPages(stream);
        Page? last = null;
        while (pages.Next() is { } page)
            last = page;
        stream.Position = place;
        return last is { IsLast: true };
    }

    private void Fill()
    {
        if (isDone || end - start >= MostBytes)
            return;
        buffer.AsSpan(start, end - start).CopyTo(buffer);
        (start, end) = (0, end - start);
        var read = stream.ReadAtLeast(buffer.AsSpan(end), MostBytes, throwOnEndOfStream: false);
        isDone = read < MostBytes;
        end += read;
    }

    private Page? PageAt(ReadOnlySpan<byte> bytes)
    {
        var count = bytes[26];
        if (bytes.Length < HeadBytes + count)
            return null;
        var segments = bytes.Slice(HeadBytes, count);
        var length = 0;
        foreach (var segment in segments)
            length += segment;
        var whole = HeadBytes + count + length;
        if (bytes.Length < whole)
            return null;
        // The check is taken with its own four bytes as 0.
        var check = OggCheck.Of(bytes[..22]);
        check = OggCheck.Of([0, 0, 0, 0], check);
        check = OggCheck.Of(bytes[26..whole], check);
        if (check != BinaryPrimitives.ReadUInt32LittleEndian(bytes[22..]))
            return null;
        start += whole;
        return new(
            BinaryPrimitives.ReadUInt32LittleEndian(bytes[14..]),
            BinaryPrimitives.ReadUInt32LittleEndian(bytes[18..]),
            BinaryPrimitives.ReadInt64LittleEndian(bytes[6..]),
            (bytes[5] & 1) != 0,
            (bytes[5] & LastPage) != 0,
            segments.ToArray(),
            bytes.Slice(HeadBytes + count, length).ToArray()
        );
    }
}
