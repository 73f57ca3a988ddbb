using System.Buffers.Binary;
using Rollwright.Audio.Reading;

namespace Rollwright.Audio.Wave;

/// <summary>How a WAV file holds its numbers: PCM of 8 to 32 bits, float of 32 or 64; the extensible form too.</summary>
/// <param name="IsFloat">Whether they are IEEE 754 numbers.</param>
/// <param name="Channels">1 to 8.</param>
/// <param name="Rate">Frames a second, 1,000 to 384,000.</param>
/// <param name="Width">Bytes of a number; fewer bits than that stand in the upper ones.</param>
internal sealed record WavFormat(bool IsFloat, int Channels, int Rate, int Width)
{
    private const int PcmTag = 1;
    private const int FloatTag = 3;
    private const int ExtensibleTag = 0xFFFE;

    public int FrameBytes => Width * Channels;

    /// <param name="chunk">The content of the "fmt " chunk.</param>
    /// <param name="at">Where it stands in the file.</param>
    /// <exception cref="SoundFileException">The form is not read.</exception>
    public static WavFormat Read(ReadOnlySpan<byte> chunk, long at)
    {
        if (chunk.Length < 16)
            throw new SoundFileException(at, "the format chunk is cut short; record or copy the file again");
        var tag = (int)BinaryPrimitives.ReadUInt16LittleEndian(chunk);
        // The extensible form keeps the true tag in the first two bytes of its sub-format.
        if (tag == ExtensibleTag && chunk.Length >= 26)
            tag = BinaryPrimitives.ReadUInt16LittleEndian(chunk[24..]);
        var channels = BinaryPrimitives.ReadUInt16LittleEndian(chunk[2..]);
        var rate = BinaryPrimitives.ReadUInt32LittleEndian(chunk[4..]);
        var frame = BinaryPrimitives.ReadUInt16LittleEndian(chunk[12..]);
        var bits = BinaryPrimitives.ReadUInt16LittleEndian(chunk[14..]);
        if (!(tag == PcmTag && bits is >= 8 and <= 32) && !(tag == FloatTag && bits is 32 or 64))
            throw new SoundFileException(
                at,
                $"form {tag} of {bits} bits is not read; save it as 16-bit PCM",
                isOtherForm: true
            );
        if (channels is < 1 or > 8)
            throw new SoundFileException(at + 2, $"{channels} channels are not read; save it as mono or stereo");
        if (rate is < 1_000 or > 384_000)
            throw new SoundFileException(at + 4, $"a rate of {rate} is not read; save it at 44100");
        var width = (bits + 7) / 8;
        // A number may stand in a wider place than it needs.
        if (tag == PcmTag && frame % channels == 0 && frame / channels > width && frame / channels <= 4)
            width = frame / channels;
        return new(tag == FloatTag, channels, (int)rate, width);
    }

    /// <summary>As many numbers as there is room for; what is no number becomes 0.</summary>
    public void Values(ReadOnlySpan<byte> bytes, Span<float> values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            var value = Value(bytes[(i * Width)..]);
            values[i] = float.IsFinite(value) ? value : 0;
        }
    }

    // Full scale is divided by the greatest positive number, as the writer multiplies by it.
    private float Value(ReadOnlySpan<byte> bytes) =>
        (IsFloat, Width) switch
        {
            (true, 4) => BinaryPrimitives.ReadSingleLittleEndian(bytes),
            (true, _) => (float)BinaryPrimitives.ReadDoubleLittleEndian(bytes),
            (_, 1) => (bytes[0] - 128) / 127f,
            (_, 2) => BinaryPrimitives.ReadInt16LittleEndian(bytes) / 32_767f,
            (_, 3) => ((bytes[0] << 8 | bytes[1] << 16 | bytes[2] << 24) >> 8) / 8_388_607f,
            _ => (float)(BinaryPrimitives.ReadInt32LittleEndian(bytes) / 2_147_483_647.0),
        };
}
