using System.Buffers.Binary;
using System.Text;

namespace Rollwright.Audio.Wave;

/// <summary>The chunks of a RIFF file one behind the other, read without going back.</summary>
internal sealed class ChunkReader(Stream stream)
{
    private readonly byte[] scratch = new byte[4_096];
    private bool isCut;

    /// <summary>Bytes from the start of the file.</summary>
    public long At { get; private set; }

    /// <param name="At">Where its name stands.</param>
    /// <param name="Name">Four characters.</param>
    /// <param name="Length">Bytes of its content, as it says.</param>
    public readonly record struct Chunk(long At, string Name, uint Length)
    {
        public bool Is(ReadOnlySpan<byte> name) => Encoding.Latin1.GetString(name) == Name;
    }

    /// <summary>The next chunk's head; null at the end.</summary>
    public Chunk? Next()
    {
        var at = At;
        Span<byte> head = stackalloc byte[8];
        return isCut || Read(head) < 8
            ? null
            : new(at, Encoding.Latin1.GetString(head[..4]), BinaryPrimitives.ReadUInt32LittleEndian(head[4..]));
    }

    /// <summary>The content of a chunk whose head was just read; beyond the bound it is passed over.</summary>
    public byte[] Content(Chunk chunk, int most)
    {
        var content = new byte[(int)Math.Min(chunk.Length, most)];
        var held = Read(content);
        // A chunk of odd length is followed by one byte that its length does not count.
        var rest = (long)chunk.Length + (chunk.Length & 1) - content.Length;
        while (rest > 0 && held == content.Length)
        {
            var read = Read(scratch.AsSpan(0, (int)Math.Min(rest, scratch.Length)));
            if (read == 0)
                break;
            rest -= read;
        }
        isCut = rest > 1 || held < content.Length;
        return content[..held];
    }

    public int Read(Span<byte> bytes)
    {
        var read = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        At += read;
        return read;
    }
}
