using System.Buffers;
using System.Buffers.Binary;

namespace Rollwright.Audio.Ogg;

/// <summary>
/// Packets in pages of one logical Ogg stream (RFC 3533). A page holds whole packets: at most 255 segments, which are
/// 255 bytes each but for the last of a packet.
/// </summary>
internal sealed class OggStream(uint serial)
{
    private const int MostSegments = 255;
    private const byte FirstPage = 2;
    private const byte LastPage = 4;

    private readonly ArrayBufferWriter<byte> pages = new();
    private readonly List<byte> segments = [];
    private readonly ArrayBufferWriter<byte> waiting = new();
    private uint number;

    public byte[] Bytes => pages.WrittenSpan.ToArray();

    /// <summary>Whether another packet of so many bytes goes on the page that waits.</summary>
    public bool HasRoomFor(int bytes) => segments.Count + (bytes / 255) + 1 <= MostSegments;

    /// <exception cref="ArgumentException">The packet does not fit the page.</exception>
    public void Add(ReadOnlySpan<byte> packet)
    {
        if (!HasRoomFor(packet.Length))
            throw new ArgumentException("A packet goes on one page.", nameof(packet));
        for (var left = packet.Length; left >= 0; left -= 255)
            segments.Add((byte)Math.Min(left, 255));
        waiting.Write(packet);
    }

    /// <summary>Writes what waits as a page.</summary>
    /// <param name="granule">The stream's time at the end of the page.</param>
    /// <param name="isLast">Whether the stream ends with it.</param>
    public void EndPage(long granule, bool isLast = false)
    {
        var page = new byte[27 + segments.Count + waiting.WrittenCount];
        "OggS"u8.CopyTo(page);
        page[5] = (byte)((number == 0 ? FirstPage : 0) | (isLast ? LastPage : 0));
        BinaryPrimitives.WriteInt64LittleEndian(page.AsSpan(6), granule);
        BinaryPrimitives.WriteUInt32LittleEndian(page.AsSpan(14), serial);
        BinaryPrimitives.WriteUInt32LittleEndian(page.AsSpan(18), number++);
        page[26] = (byte)segments.Count;
        segments.CopyTo(page, 27);
        waiting.WrittenSpan.CopyTo(page.AsSpan(27 + segments.Count));
        BinaryPrimitives.WriteUInt32LittleEndian(page.AsSpan(22), OggCheck.Of(page));
        pages.Write(page);
        segments.Clear();
        waiting.ResetWrittenCount();
    }
}
