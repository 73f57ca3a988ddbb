using System.Buffers.Binary;
using Concentus;
using Rollwright.Audio.Ogg;
using Rollwright.Audio.Opus;

namespace Rollwright.Audio.Reading;

/// <summary>
/// Ogg Opus files (RFC 7845), by the decoder Concentus: the frames in which the codec wakes up are left out, the gain
/// of the header is applied, and the last page's time says where the sound ends. Channels keep the
/// order of the file (left, centre, right … of surround sound).
/// </summary>
internal sealed class OpusSource : DecodedSource
{
    // The longest packet: 120 ms.
    private const int MostFrames = OpusWriter.Rate * 12 / 100;

    private readonly OggPackets packets;
    private readonly IOpusMultiStreamDecoder decoder;
    private readonly float[] decoded;
    private readonly float gain;
    private long position;
    private long? start;
    private int skip;
    private int at;
    private int held;

    /// <param name="stream">At its beginning.</param>
    public OpusSource(Stream stream)
        : base(stream)
    {
        packets = new(new(stream));
        var head = Begin("Opus", () => packets.Next()?.Bytes ?? throw new InvalidDataException());
        if (head.Length < 19 || !head.AsSpan().StartsWith("OpusHead"u8) || head[9] is < 1 or > 8)
            throw new SoundFileException(0, "the beginning of this Opus file is damaged; record or copy it again");
        Channels = head[9];
        skip = BinaryPrimitives.ReadUInt16LittleEndian(head.AsSpan(10));
        gain = (float)Math.Pow(10, BinaryPrimitives.ReadInt16LittleEndian(head.AsSpan(16)) / 256.0 / 20);
        decoder = Begin("Opus", () => Decoder(head));
        decoded = new float[MostFrames * Channels];
        // The second packet holds the tags.
        Begin("Opus", () => packets.Next());
    }

    public override int Rate => OpusWriter.Rate;

    public override int Channels { get; }

    protected override int Decode(Span<float> values)
    {
        while (at == held)
        {
            if (packets.Next() is not { } packet)
                return 0;
            Take(packet);
        }
        var count = Math.Min(values.Length, held - at);
        decoded.AsSpan(at, count).CopyTo(values);
        at += count;
        return count;
    }

    protected override string? Missing() =>
        !packets.HasEnded ? " without the mark of an end"
        : packets.HasGap ? " and lacks pieces before"
        : null;

    private static IOpusMultiStreamDecoder Decoder(byte[] head)
    {
        // The same sound on every machine: never a codec that happens to be installed.
        OpusCodecFactory.AttemptToUseNativeLibrary = false;
        var channels = head[9];
        if (head[18] == 0)
            return OpusCodecFactory.CreateMultiStreamDecoder(OpusWriter.Rate, channels, 1, channels - 1, [0, 1]);
        if (head.Length < 21 + channels)
            throw new InvalidDataException("The table of channels is cut short.");
        return OpusCodecFactory.CreateMultiStreamDecoder(
            OpusWriter.Rate,
            channels,
            head[19],
            head[20],
            head[21..(21 + channels)]
        );
    }

    private void Take(OggPackets.Packet packet)
    {
        var frames = packet.Bytes.Length == 0 ? 0 : decoder.DecodeMultistream(packet.Bytes, decoded, MostFrames, false);
        position += frames;
        var end = frames;
        if (packet.Granule is { } granule)
        {
            // A stream may begin at another time than 0.
            start ??= packet.IsLast ? 0 : Math.Max(0, granule - position);
            if (packet.IsLast)
                end = (int)Math.Clamp(frames - (position - (granule - start.Value)), 0, frames);
        }
        var first = Math.Min(skip, end);
        skip -= first;
        (at, held) = (first * Channels, end * Channels);
        if (gain != 1)
            foreach (ref var value in decoded.AsSpan(at, held - at))
                value *= gain;
    }
}
