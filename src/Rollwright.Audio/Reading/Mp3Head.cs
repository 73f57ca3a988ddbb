using System.Buffers.Binary;

namespace Rollwright.Audio.Reading;

/// <summary>
/// What stands before the sound of an MP3 file: an ID3v2 tag (id3.org, ID3v2.4), the first frame's header (ISO 11172-3),
/// and in that frame the Xing or Info tag with the count of frames and how many samples the encoder put before and
/// behind the sound (as LAME writes it and others do since).
/// </summary>
internal sealed class Mp3Head
{
    // A decoder's own delay, which the encoder's does not count (LAME's technical notes; from memory).
    private const int DecoderDelay = 529;

    /// <summary>Frames of sound before its beginning.</summary>
    public int Delay { get; private init; }

    /// <summary>Frames of sound in all, without what was put before and behind; null where the file does not say.</summary>
    public long? Frames { get; private init; }

    /// <summary>Bytes of an ID3v2 tag; 0 where there is none.</summary>
    public static long TagLength(ReadOnlySpan<byte> head) =>
        head.Length >= 10 && head.StartsWith("ID3"u8)
            ? 10
                + ((head[6] & 0x7f) << 21 | (head[7] & 0x7f) << 14 | (head[8] & 0x7f) << 7 | head[9] & 0x7f)
                + ((head[5] & 0x10) != 0 ? 10 : 0)
            : 0;

    /// <summary>Whether a frame of MPEG 1, 2 or 2.5, of any layer, begins here.</summary>
    public static bool IsFrame(ReadOnlySpan<byte> head) =>
        head.Length >= 4
        && head[0] == 0xff
        && (head[1] & 0xe0) == 0xe0
        && (head[1] & 0x18) != 0x08
        && (head[1] & 0x06) != 0
        && (head[2] & 0xf0) != 0xf0
        && (head[2] & 0x0c) != 0x0c;

    /// <summary>Whether it is MPEG 2.5, which NLayer decodes wrongly (measured against ffmpeg).</summary>
    public static bool IsLowRate(ReadOnlySpan<byte> head) => (head[1] & 0x18) == 0;

    /// <param name="frame">The first frame, at least its first 200 bytes.</param>
    public static Mp3Head Of(ReadOnlySpan<byte> frame)
    {
        var isFirst = (frame[1] & 0x18) == 0x18;
        var isMono = (frame[3] & 0xc0) == 0xc0;
        // The tag stands where the side information of an empty frame ends.
        var at =
            4
            + (
                (isFirst, isMono) switch
                {
                    (true, false) => 32,
                    (true, true) or (false, false) => 17,
                    _ => 9,
                }
            );
        if (frame.Length < at + 8 || !(frame[at..].StartsWith("Xing"u8) || frame[at..].StartsWith("Info"u8)))
            return new();
        var flags = BinaryPrimitives.ReadUInt32BigEndian(frame[(at + 4)..]);
        var next =
            at
            + 8
            + ((flags & 1) != 0 ? 4 : 0)
            + ((flags & 2) != 0 ? 4 : 0)
            + ((flags & 4) != 0 ? 100 : 0)
            + ((flags & 8) != 0 ? 4 : 0);
        long? frames =
            (flags & 1) != 0 && frame.Length >= at + 12
                ? (long)BinaryPrimitives.ReadUInt32BigEndian(frame[(at + 8)..]) * (isFirst ? 1152 : 576)
                : null;
        if (frame.Length < next + 24 || frame[next] == 0)
            return new() { Frames = frames };
        var delay = frame[next + 21] << 4 | frame[next + 22] >> 4;
        var padding = (frame[next + 22] & 0xf) << 8 | frame[next + 23];
        return new() { Delay = delay + DecoderDelay, Frames = frames - delay - padding };
    }
}
