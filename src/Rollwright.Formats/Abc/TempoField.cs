using System.Globalization;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>What a Q: field says (ABC 2.1, section 3.1.8, and its older forms).</summary>
internal static class TempoField
{
    /// <summary>
    /// Reads "1/2=100", "\"lively\" 1/4=120", "1/4 3/8=40" (units add up), and the older "C=100", "C3=40" and "120",
    /// which count the unit note length. Null where it names no number.
    /// </summary>
    public static Tempo? Read(string value, Fraction unitLength)
    {
        var text = WithoutWords(value).Trim();
        var equals = text.IndexOf('=', StringComparison.Ordinal);
        var number = equals < 0 ? text : text[(equals + 1)..];
        if (
            !double.TryParse(number.Trim(), NumberStyles.AllowDecimalPoint, null, out var perMinute)
            || perMinute is < 1 or > 2000
        )
            return null;
        if (equals < 0)
            return new(unitLength, perMinute);
        var unit = Fraction.Zero;
        foreach (var part in text[..equals].Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (part[0] is 'C' or 'c')
            {
                var times =
                    part.Length > 1 && int.TryParse(part.AsSpan(1), out var count) && count is >= 1 and <= 64
                        ? count
                        : 1;
                unit += unitLength * times;
            }
            else if (MetreField.Unit(part) is { } length)
                unit += length;
            else
                return null;
        }
        return unit > Fraction.Zero ? new(unit, perMinute) : null;
    }

    private static string WithoutWords(string value)
    {
        while (value.IndexOf('"', StringComparison.Ordinal) is var open && open >= 0)
        {
            var close = value.IndexOf('"', open + 1);
            value = close < 0 ? value[..open] : value.Remove(open, close - open + 1);
        }
        return value;
    }
}
