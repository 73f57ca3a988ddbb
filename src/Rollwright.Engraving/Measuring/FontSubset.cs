using System.Buffers.Binary;
using System.Text;
using SkiaSharp;

namespace Rollwright.Engraving.Measuring;

/// <summary>
/// A TrueType font without the outlines that a page does not use, so that a drawing may carry its fonts and stay small.
/// Numbers of glyphs stay as they are (the OpenType specification's tables <c>loca</c>, <c>glyf</c> and <c>head</c>).
/// </summary>
/// <remarks>Our fonts have no composite glyphs: each outline stands for itself.</remarks>
internal static class FontSubset
{
    private const int DirectoryStart = 12;
    private const int DirectoryEntry = 16;
    private const int ChecksumAdjustment = 8;
    private const int OffsetFormat = 50;
    private const uint ChecksumOfFont = 0xB1B0AFBA;

    /// <param name="font">A TrueType file.</param>
    /// <param name="typeface">The same font, read.</param>
    /// <param name="characters">What is written in it.</param>
    public static byte[] Of(byte[] font, SKTypeface typeface, IEnumerable<Rune> characters)
    {
        using var reader = new SKFont(typeface);
        // Glyph 0 is shown where a character is missing.
        var used = characters.Select(rune => (int)reader.GetGlyph(rune.Value)).Append(0).ToHashSet();
        var tables = Read(font);
        var wide = BinaryPrimitives.ReadInt16BigEndian(tables["head"].AsSpan(OffsetFormat)) != 0;
        (tables["glyf"], tables["loca"]) = Keep(tables["glyf"], tables["loca"], wide, used);
        BinaryPrimitives.WriteInt16BigEndian(tables["head"].AsSpan(OffsetFormat), 1);
        BinaryPrimitives.WriteUInt32BigEndian(tables["head"].AsSpan(ChecksumAdjustment), 0);
        return Write(font.AsSpan(0, 4), tables);
    }

    private static SortedDictionary<string, byte[]> Read(ReadOnlySpan<byte> font)
    {
        var tables = new SortedDictionary<string, byte[]>(StringComparer.Ordinal);
        for (var i = 0; i < BinaryPrimitives.ReadUInt16BigEndian(font[4..]); i++)
        {
            var entry = font.Slice(DirectoryStart + (i * DirectoryEntry), DirectoryEntry);
            var start = (int)BinaryPrimitives.ReadUInt32BigEndian(entry[8..]);
            var length = (int)BinaryPrimitives.ReadUInt32BigEndian(entry[12..]);
            tables[Encoding.ASCII.GetString(entry[..4])] = font.Slice(start, length).ToArray();
        }
        return tables;
    }

    private static (byte[] Outlines, byte[] Offsets) Keep(byte[] outlines, byte[] offsets, bool wide, HashSet<int> used)
    {
        var count = (offsets.Length / (wide ? 4 : 2)) - 1;
        var kept = new MemoryStream();
        var places = new byte[(count + 1) * 4];
        for (var glyph = 0; glyph < count; glyph++)
        {
            if (used.Contains(glyph))
                kept.Write(outlines.AsSpan(OffsetOf(glyph)..OffsetOf(glyph + 1)));
            while (kept.Length % 4 != 0)
                kept.WriteByte(0);
            BinaryPrimitives.WriteUInt32BigEndian(places.AsSpan((glyph + 1) * 4), (uint)kept.Length);
        }
        return (kept.ToArray(), places);

        int OffsetOf(int glyph) =>
            wide
                ? (int)BinaryPrimitives.ReadUInt32BigEndian(offsets.AsSpan(glyph * 4))
                : BinaryPrimitives.ReadUInt16BigEndian(offsets.AsSpan(glyph * 2)) * 2;
    }

    private static byte[] Write(ReadOnlySpan<byte> version, SortedDictionary<string, byte[]> tables)
    {
        var start = DirectoryStart + (tables.Count * DirectoryEntry);
        var font = new byte[start + tables.Values.Sum(table => Padded(table.Length))];
        version.CopyTo(font);
        BinaryPrimitives.WriteUInt16BigEndian(font.AsSpan(4), (ushort)tables.Count);
        var power = int.Log2(tables.Count);
        BinaryPrimitives.WriteUInt16BigEndian(font.AsSpan(6), (ushort)(DirectoryEntry << power));
        BinaryPrimitives.WriteUInt16BigEndian(font.AsSpan(8), (ushort)power);
        BinaryPrimitives.WriteUInt16BigEndian(
            font.AsSpan(10),
            (ushort)((tables.Count - (1 << power)) * DirectoryEntry)
        );
        var entry = DirectoryStart;
        var head = 0;
        foreach (var (name, table) in tables)
        {
            if (name == "head")
                head = start;
            table.CopyTo(font, start);
            Encoding.ASCII.GetBytes(name, font.AsSpan(entry));
            var sum = Checksum(font.AsSpan(start, Padded(table.Length)));
            BinaryPrimitives.WriteUInt32BigEndian(font.AsSpan(entry + 4), sum);
            BinaryPrimitives.WriteUInt32BigEndian(font.AsSpan(entry + 8), (uint)start);
            BinaryPrimitives.WriteUInt32BigEndian(font.AsSpan(entry + 12), (uint)table.Length);
            entry += DirectoryEntry;
            start += Padded(table.Length);
        }
        BinaryPrimitives.WriteUInt32BigEndian(font.AsSpan(head + ChecksumAdjustment), ChecksumOfFont - Checksum(font));
        return font;
    }

    private static int Padded(int length) => (length + 3) & ~3;

    private static uint Checksum(ReadOnlySpan<byte> bytes)
    {
        var sum = 0u;
        for (var i = 0; i < bytes.Length; i += 4)
            sum += BinaryPrimitives.ReadUInt32BigEndian(bytes[i..]);
        return sum;
    }
}
