using System.Buffers.Binary;
using System.Text;
using Concentus;
using Concentus.Enums;
using Rollwright.Audio.Ogg;

namespace Rollwright.Audio.Opus;

/// <summary>Writes Ogg Opus files (RFC 7845): an OpusHead page, an OpusTags page, then packets of 20 ms.</summary>
public static class OpusWriter
{
    /// <summary>Frames a second that a sound must have: what Opus counts in.</summary>
    public const int Rate = 48_000;

    private const int PacketFrames = Rate / 50;
    private const int MostPacketBytes = 1_275;

    // A page a second keeps seeking quick.
    private const int PacketsAPage = 50;

    // Any number; always the same one, so that the same sound gives the same file.
    private const uint Serial = 0x726f_6c6c;

    /// <summary>The whole file.</summary>
    /// <param name="samples">48,000 frames a second, one or two channels.</param>
    /// <param name="title">Said in the file's tags; may be empty.</param>
    /// <param name="bitsASecond">For each channel, 6,000 to 256,000.</param>
    /// <exception cref="ArgumentException">Another rate or more channels.</exception>
    public static byte[] ToBytes(Samples samples, string title = "", int bitsASecond = 64_000)
    {
        ArgumentNullException.ThrowIfNull(samples);
        if (samples.Rate != Rate || samples.Channels > 2)
            throw new ArgumentException(
                $"An Opus file is made from one or two channels at {Rate} frames a second.",
                nameof(samples)
            );
        // The same bytes on every machine: never a codec that happens to be installed.
        OpusCodecFactory.AttemptToUseNativeLibrary = false;
        using var encoder = OpusCodecFactory.CreateEncoder(
            Rate,
            samples.Channels,
            OpusApplication.OPUS_APPLICATION_AUDIO
        );
        encoder.Bitrate = bitsASecond * samples.Channels;
        var skip = encoder.Lookahead;
        var stream = new OggStream(Serial);
        stream.Add(Head(samples.Channels, skip));
        stream.EndPage(0);
        stream.Add(Tags(title));
        stream.EndPage(0);
        AddSound(stream, encoder, samples, skip);
        return stream.Bytes;
    }

    // The decoder drops the first frames, in which the codec wakes up; the last page's time says where the sound ends.
    private static void AddSound(OggStream stream, IOpusEncoder encoder, Samples samples, int skip)
    {
        var frames = new float[PacketFrames * samples.Channels];
        var packet = new byte[MostPacketBytes];
        var total = skip + samples.Frames;
        var packets = (total + PacketFrames - 1) / PacketFrames;
        var onPage = 0;
        for (var i = 0; i < packets; i++)
        {
            var rest = samples.Interleaved[Math.Min(samples.Interleaved.Length, i * frames.Length)..];
            var count = Math.Min(rest.Length, frames.Length);
            rest[..count].CopyTo(frames);
            frames.AsSpan(count).Clear();
            var length = encoder.Encode(frames, PacketFrames, packet, packet.Length);
            if (onPage == PacketsAPage || !stream.HasRoomFor(length))
            {
                stream.EndPage((long)i * PacketFrames);
                onPage = 0;
            }
            stream.Add(packet.AsSpan(0, length));
            onPage++;
        }
        stream.EndPage(total, isLast: true);
    }

    private static byte[] Head(int channels, int skip)
    {
        var head = new byte[19];
        "OpusHead"u8.CopyTo(head);
        head[8] = 1;
        head[9] = (byte)channels;
        BinaryPrimitives.WriteUInt16LittleEndian(head.AsSpan(10), (ushort)skip);
        BinaryPrimitives.WriteUInt32LittleEndian(head.AsSpan(12), Rate);
        return head;
    }

    private static byte[] Tags(string title)
    {
        using var tags = new MemoryStream();
        using var writer = new BinaryWriter(tags);
        writer.Write("OpusTags"u8);
        WriteText(writer, "Rollwright");
        // The page holds it whole; nobody's title is longer.
        var shown = title.Length > 500 ? title[..500] : title;
        writer.Write(shown.Length == 0 ? 0 : 1);
        if (shown.Length > 0)
            WriteText(writer, $"TITLE={shown}");
        return tags.ToArray();
    }

    private static void WriteText(BinaryWriter writer, string text)
    {
        var bytes = Encoding.UTF8.GetBytes(text);
        writer.Write(bytes.Length);
        writer.Write(bytes);
    }
}
