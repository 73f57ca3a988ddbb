using Rollwright.Music.Metre;

namespace Rollwright.Formats.Abc;

/// <summary>What an M: field says (ABC 2.1, section 3.1.6).</summary>
internal static class MetreField
{
    /// <summary>Reads "C", "C|", "6/8", "(2+3)/8"; null where it is no metre. "none" is free metre, read as 4/4.</summary>
    public static TimeSignature? Read(string value)
    {
        var text = value.Replace(" ", "", StringComparison.Ordinal);
        if (text is "C" or "c" || text.Equals("none", StringComparison.OrdinalIgnoreCase))
            return TimeSignature.Common;
        if (text is "C|" or "c|")
            return TimeSignature.Cut;
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0 || !int.TryParse(text.AsSpan(slash + 1), out var unit) || unit is < 1 or > 64)
            return null;
        var beats = 0;
        foreach (var part in text[..slash].Trim('(', ')').Split('+'))
        {
            if (!int.TryParse(part, out var count) || count is < 1 or > 64)
                return null;
            beats += count;
        }
        return beats is < 1 or > 64 || (unit & (unit - 1)) != 0 ? null : new(beats, unit);
    }

    /// <summary>The unit note length where no L: gives one: 1/16 in metres below 3/4, else 1/8 (section 3.1.7).</summary>
    public static Fraction DefaultUnit(TimeSignature time) => time.Bar < new Fraction(3, 4) ? new(1, 16) : new(1, 8);

    /// <summary>Reads "1/8" or "1" of an L: field; null where it is no note length.</summary>
    public static Fraction? Unit(string value)
    {
        var parts = value.Split('/');
        if (parts.Length is < 1 or > 2 || !int.TryParse(parts[0], out var upper) || upper is < 1 or > 64)
            return null;
        var lower = 1;
        if (parts.Length == 2 && (!int.TryParse(parts[1], out lower) || lower is < 1 or > 512))
            return null;
        return (lower & (lower - 1)) == 0 ? new(upper, lower) : null;
    }
}
