using System.Buffers.Binary;
using System.Runtime.CompilerServices;

namespace Rollwright.Audio.Wave;

/// <summary>
/// Writes RIFF/WAVE files: a "fmt " chunk and a "data" chunk, little-endian (Multimedia Programming Interface and Data
/// Specifications 1.0, 1991; the float form has tag 3 and a "fact" chunk by the 1994 revision).
/// </summary>
public static class WavWriter
{
    private const int FloatTag = 3;
    private const int PcmTag = 1;

    /// <summary>The whole file. Values beyond full scale are held at full scale in the PCM forms.</summary>
    /// <exception cref="ArgumentException">The file would be larger than 2 GiB.</exception>
    public static byte[] ToBytes(Samples samples, WavEncoding encoding = WavEncoding.Pcm16)
    {
        ArgumentNullException.ThrowIfNull(samples);
        var isFloat = encoding == WavEncoding.Float32;
        var width = BytesPerValue(encoding);
        var dataLength = (long)samples.Interleaved.Length * width;
        var head = isFloat ? 58 : 44;
        // Chunks start at even bytes: an odd data chunk is followed by one byte that its length does not count.
        var total = head + dataLength + (dataLength & 1);
        if (total > int.MaxValue)
            throw new ArgumentException(
                "A sound of this length does not fit a WAV file: render a part.",
                nameof(samples)
            );
        var bytes = new byte[total];
        WriteHead(bytes, samples, encoding, (int)dataLength);
        WriteData(bytes.AsSpan(head), samples.Interleaved, encoding);
        return bytes;
    }

    /// <summary>Bytes of a file for each value of each channel.</summary>
    public static int BytesPerValue(WavEncoding encoding) =>
        encoding switch
        {
            WavEncoding.Pcm16 => 2,
            WavEncoding.Pcm24 => 3,
            _ => 4,
        };

    private static void WriteHead(Span<byte> bytes, Samples samples, WavEncoding encoding, int dataLength)
    {
        var isFloat = encoding == WavEncoding.Float32;
        var width = BytesPerValue(encoding);
        "RIFF"u8.CopyTo(bytes);
        Put32(bytes[4..], bytes.Length - 8);
        "WAVEfmt "u8.CopyTo(bytes[8..]);
        Put32(bytes[16..], isFloat ? 18 : 16);
        Put16(bytes[20..], isFloat ? FloatTag : PcmTag);
        Put16(bytes[22..], samples.Channels);
        Put32(bytes[24..], samples.Rate);
        Put32(bytes[28..], samples.Rate * samples.Channels * width);
        Put16(bytes[32..], samples.Channels * width);
        Put16(bytes[34..], width * 8);
        var at = 36;
        if (isFloat)
        {
            "fact"u8.CopyTo(bytes[38..]);
            Put32(bytes[42..], 4);
            Put32(bytes[46..], samples.Frames);
            at = 50;
        }
        "data"u8.CopyTo(bytes[at..]);
        Put32(bytes[(at + 4)..], dataLength);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void WriteData(Span<byte> data, ReadOnlySpan<float> values, WavEncoding encoding)
    {
        for (var i = 0; i < values.Length; i++)
        {
            switch (encoding)
            {
                case WavEncoding.Pcm16:
                    BinaryPrimitives.WriteInt16LittleEndian(data[(i * 2)..], (short)Whole(values[i], 32_767));
                    break;
                case WavEncoding.Pcm24:
                    var whole = Whole(values[i], 8_388_607);
                    data[i * 3] = (byte)whole;
                    data[(i * 3) + 1] = (byte)(whole >> 8);
                    data[(i * 3) + 2] = (byte)(whole >> 16);
                    break;
                default:
                    BinaryPrimitives.WriteSingleLittleEndian(data[(i * 4)..], values[i]);
                    break;
            }
        }
    }

    private static int Whole(float value, int full) =>
        (int)Math.Round(Math.Clamp((double)value, -1, 1) * full, MidpointRounding.AwayFromZero);

    private static void Put32(Span<byte> bytes, int value) => BinaryPrimitives.WriteInt32LittleEndian(bytes, value);

    private static void Put16(Span<byte> bytes, int value) =>
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)value);
}
