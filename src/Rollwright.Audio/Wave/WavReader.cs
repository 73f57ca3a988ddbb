using System.Buffers.Binary;

namespace Rollwright.Audio.Wave;

/// <summary>
/// Reads RIFF/WAVE files of 8, 16, 24 and 32 bits PCM and of 32 bits float, plain or in the extensible form. Chunks it
/// does not know are passed over; a data chunk that a broken recording left longer than the file is read to the end.
/// </summary>
public static class WavReader
{
    private const int PcmTag = 1;
    private const int FloatTag = 3;
    private const int ExtensibleTag = 0xFFFE;

    /// <exception cref="WavException">It is no WAV file, or of a form that is not read.</exception>
    public static Samples Read(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < 12 || !bytes[..4].SequenceEqual("RIFF"u8) || !bytes[8..12].SequenceEqual("WAVE"u8))
            throw new WavException(0, "this is no WAV file; give one that begins with RIFF and WAVE");
        Format? format = null;
        for (var at = 12; at + 8 <= bytes.Length; )
        {
            var name = bytes.Slice(at, 4);
            var length = BinaryPrimitives.ReadUInt32LittleEndian(bytes[(at + 4)..]);
            var content = at + 8;
            var held = (int)Math.Min(length, bytes.Length - content);
            if (name.SequenceEqual("fmt "u8))
                format = ReadFormat(bytes.Slice(content, held), content);
            else if (name.SequenceEqual("data"u8))
                return Values(
                    bytes.Slice(content, held),
                    format ?? throw new WavException(at, "data before its format")
                );
            if (held < length)
                break;
            at = content + held + (held & 1);
        }
        throw new WavException(bytes.Length, "the file ends before its data; record or copy it again");
    }

    private readonly record struct Format(int Tag, int Channels, int Rate, int Bits);

    private static Format ReadFormat(ReadOnlySpan<byte> chunk, int at)
    {
        if (chunk.Length < 16)
            throw new WavException(at, "the format chunk is cut short; record or copy the file again");
        var tag = (int)BinaryPrimitives.ReadUInt16LittleEndian(chunk);
        // The extensible form keeps the true tag in the first two bytes of its sub-format.
        if (tag == ExtensibleTag && chunk.Length >= 26)
            tag = BinaryPrimitives.ReadUInt16LittleEndian(chunk[24..]);
        var channels = BinaryPrimitives.ReadUInt16LittleEndian(chunk[2..]);
        var rate = BinaryPrimitives.ReadUInt32LittleEndian(chunk[4..]);
        var bits = BinaryPrimitives.ReadUInt16LittleEndian(chunk[14..]);
        if (!(tag == PcmTag && bits is 8 or 16 or 24 or 32) && !(tag == FloatTag && bits == 32))
            throw new WavException(at, $"form {tag} of {bits} bits is not read; save it as 16-bit PCM");
        if (channels is < 1 or > 8)
            throw new WavException(at + 2, $"{channels} channels are not read; save it as mono or stereo");
        if (rate is < 1_000 or > 384_000)
            throw new WavException(at + 4, $"a rate of {rate} is not read; save it at 44100");
        return new(tag, channels, (int)rate, bits);
    }

    private static Samples Values(ReadOnlySpan<byte> data, Format format)
    {
        var width = format.Bits / 8;
        var frames = data.Length / (width * format.Channels);
        var values = new float[frames * format.Channels];
        for (var i = 0; i < values.Length; i++)
            values[i] = Value(data[(i * width)..], format);
        return new(format.Rate, format.Channels, values);
    }

    // Full scale is divided by the greatest positive number, as the writer multiplies by it.
    private static float Value(ReadOnlySpan<byte> bytes, Format format) =>
        (format.Tag, format.Bits) switch
        {
            (FloatTag, _) => BinaryPrimitives.ReadSingleLittleEndian(bytes),
            (_, 8) => (bytes[0] - 128) / 127f,
            (_, 16) => BinaryPrimitives.ReadInt16LittleEndian(bytes) / 32_767f,
            (_, 24) => ((bytes[0] << 8 | bytes[1] << 16 | bytes[2] << 24) >> 8) / 8_388_607f,
            _ => (float)(BinaryPrimitives.ReadInt32LittleEndian(bytes) / 2_147_483_647.0),
        };
}
