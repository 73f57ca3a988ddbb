using Rollwright.Audio.Ogg;
using Rollwright.Audio.Wave;

namespace Rollwright.Audio.Reading;

/// <summary>Opens sound files by what they hold, whatever their name: WAV, MP3, Ogg Vorbis, Ogg Opus.</summary>
public static class SoundFile
{
    private const int HeadBytes = 64;

    /// <param name="stream">Seekable, at its beginning; it is read while the source is, and closed with it.</param>
    /// <exception cref="SoundFileException">It is none of these forms, or too damaged to begin.</exception>
    public static ISoundSource Open(Stream stream)
    {
        ArgumentNullException.ThrowIfNull(stream);
        var head = Peek(stream, 0);
        if (head.Length == 0)
            throw new SoundFileException(0, "the file is empty; record or copy it again");
        if (WavSource.Is(head))
            return new WavSource(stream);
        if (head.AsSpan().StartsWith("OggS"u8))
            return OpenOgg(stream, head);
        var tag = Mp3Head.TagLength(head);
        var frame = tag == 0 ? head : Peek(stream, tag);
        if (!Mp3Head.IsFrame(frame))
            throw new SoundFileException(0, "this is no sound that is known here", isOtherForm: true);
        return Mp3Head.IsLowRate(frame)
            ? throw new SoundFileException(tag, "an MP3 file of 8 to 12 kHz; save it as WAV", isOtherForm: true)
            : new Mp3Source(stream, tag);
    }

    private static ISoundSource OpenOgg(Stream stream, byte[] head)
    {
        // The first packet stands behind 27 bytes and the table of segments, and says the codec.
        var packet = head.AsSpan(Math.Min(head.Length, 27 + (head.Length > 26 ? head[26] : 0)));
        if (packet.StartsWith("OpusHead"u8))
            return new OpusSource(stream);
        // NVorbis decodes surround sound wrongly (measured against ffmpeg).
        if (packet.StartsWith("\u0001vorbis"u8) && packet.Length > 11)
            return packet[11] <= 2
                ? new VorbisSource(stream)
                : throw new SoundFileException(
                    27,
                    $"{packet[11]} channels of Vorbis; save it as stereo",
                    isOtherForm: true
                );
        throw new SoundFileException(27, "an Ogg file, but neither Vorbis nor Opus", isOtherForm: true);
    }

    private static byte[] Peek(Stream stream, long at)
    {
        stream.Position = Math.Min(at, stream.Length);
        var head = new byte[HeadBytes];
        var length = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        stream.Position = 0;
        return head[..length];
    }
}
