using System.Buffers.Binary;

namespace Rollwright.Engraving.Png;

/// <summary>
/// Says in a PNG file how large it is on paper (pHYs, W3C PNG 11.3.4.3), so that a layout program places it at its width.
/// </summary>
internal static class PngResolution
{
    private const double InchesPerMetre = 1 / 0.0254;

    // Signature, then IHDR: length, type, 13 bytes, sum (W3C PNG 5.2, 11.2.2).
    private const int HeadLength = 8 + 4 + 4 + 13 + 4;

    public static byte[] Put(ReadOnlySpan<byte> png, double dpi)
    {
        Span<byte> chunk = stackalloc byte[21];
        var perMetre = (uint)Math.Round(dpi * InchesPerMetre);
        BinaryPrimitives.WriteUInt32BigEndian(chunk, 9);
        "pHYs"u8.CopyTo(chunk[4..]);
        BinaryPrimitives.WriteUInt32BigEndian(chunk[8..], perMetre);
        BinaryPrimitives.WriteUInt32BigEndian(chunk[12..], perMetre);
        chunk[16] = 1;
        BinaryPrimitives.WriteUInt32BigEndian(chunk[17..], Sum(chunk[4..17]));
        return [.. png[..HeadLength], .. chunk, .. png[HeadLength..]];
    }

    // CRC-32 (W3C PNG, annex D).
    private static uint Sum(ReadOnlySpan<byte> bytes)
    {
        var sum = 0xffff_ffffu;
        foreach (var one in bytes)
        {
            sum ^= one;
            for (var bit = 0; bit < 8; bit++)
                sum = (sum & 1) != 0 ? (sum >> 1) ^ 0xedb8_8320u : sum >> 1;
        }
        return ~sum;
    }
}
