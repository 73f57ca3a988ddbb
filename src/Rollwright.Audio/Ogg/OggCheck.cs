namespace Rollwright.Audio.Ogg;

/// <summary>The check of an Ogg page: CRC of polynomial 04c11db7, the highest bit first, from 0 (RFC 3533, section 6).</summary>
internal static class OggCheck
{
    private static readonly uint[] Remainders = [.. Enumerable.Range(0, 256).Select(i => Remainder((uint)i << 24))];

    public static uint Of(ReadOnlySpan<byte> page, uint check = 0)
    {
        foreach (var value in page)
            check = (check << 8) ^ Remainders[(check >> 24) ^ value];
        return check;
    }

    private static uint Remainder(uint value)
    {
        for (var bit = 0; bit < 8; bit++)
            value = (value & 0x8000_0000) != 0 ? (value << 1) ^ 0x04c1_1db7 : value << 1;
        return value;
    }
}
