using System.Buffers.Binary;
using Rollwright.Audio.Reading;

namespace Rollwright.Audio.Wave;

/// <summary>
/// Reads RIFF/WAVE files in blocks, also RF64 and BW64 beyond 4 GiB (EBU Tech 3306, ITU-R BS.2088). Chunks it does not
/// know are passed over; a data chunk that a broken recording left longer than the file is read to the end.
/// </summary>
internal sealed class WavSource : ISoundSource
{
    // Who writes to a pipe cannot know the length, and puts the greatest there, or nearly.
    private const uint Unknown = 0x7fff_0000;

    private readonly Stream stream;
    private readonly WavFormat format;
    private readonly List<string> remarks = [];
    private readonly byte[] block;
    private readonly long promised;
    private long left;
    private long frames;

    /// <param name="stream">At its beginning; closed with the source.</param>
    /// <exception cref="SoundFileException">It is no WAV file, or of a form that is not read.</exception>
    public WavSource(Stream stream)
    {
        this.stream = stream;
        var chunks = new ChunkReader(stream);
        Span<byte> head = stackalloc byte[12];
        if (chunks.Read(head) < 12 || !Is(head))
            throw new SoundFileException(0, "this is no WAV file; give one that begins with RIFF and WAVE");
        var total = BinaryPrimitives.ReadUInt32LittleEndian(head[4..]);
        WavFormat? found = null;
        long? large = null;
        while (chunks.Next() is { } chunk)
        {
            if (chunk.Is("data"u8))
            {
                format =
                    found
                    ?? throw new SoundFileException(
                        chunk.At,
                        "its sound comes before its format: this is no whole WAV file; save it again"
                    );
                block = new byte[format.FrameBytes * Math.Max(1, 65_536 / format.FrameBytes)];
                promised = left =
                    chunk.Length == uint.MaxValue && large is { } length ? length
                    : chunk.Length >= Unknown || (chunk.Length == 0 && total == 0) ? long.MaxValue
                    : chunk.Length;
                return;
            }
            var content = chunks.Content(chunk, 256);
            if (chunk.Is("fmt "u8))
                found = WavFormat.Read(content, chunk.At + 8);
            else if (chunk.Is("ds64"u8) && content.Length >= 16)
                large = Math.Max(0, BinaryPrimitives.ReadInt64LittleEndian(content.AsSpan(8)));
        }
        throw new SoundFileException(chunks.At, "the file ends before its data; record or copy it again");
    }

    public int Rate => format.Rate;

    public int Channels => format.Channels;

    public IReadOnlyList<string> Remarks => remarks;

    /// <summary>Whether a file that begins so is one of these.</summary>
    public static bool Is(ReadOnlySpan<byte> head) =>
        head.Length >= 12
        && (head.StartsWith("RIFF"u8) || head.StartsWith("RF64"u8) || head.StartsWith("BW64"u8))
        && head[8..12].SequenceEqual("WAVE"u8);

    public int Read(Span<float> values)
    {
        var wanted = Math.Min(values.Length / Channels, block.Length / format.FrameBytes);
        var bytes = (int)Math.Min((long)wanted * format.FrameBytes, left);
        var read = stream.ReadAtLeast(block.AsSpan(0, bytes), bytes, throwOnEndOfStream: false);
        left -= read;
        var count = read / format.FrameBytes * Channels;
        format.Values(block, values[..count]);
        frames += count / Channels;
        if (read < bytes)
            EndEarly();
        else if (count == 0)
            left = 0;
        return count;
    }

    public void Dispose() => stream.Dispose();

    private void EndEarly()
    {
        if (promised != long.MaxValue)
            remarks.Add(
                $"the file ends at {Moment.Text((double)frames / Rate)} of {Moment.Text((double)(promised / format.FrameBytes) / Rate)}; what is there is heard"
            );
        left = 0;
    }
}
