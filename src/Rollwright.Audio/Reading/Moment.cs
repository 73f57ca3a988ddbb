using System.Globalization;

namespace Rollwright.Audio.Reading;

/// <summary>A place in a recording as people read it: 0:12.3, 1:02:03.4.</summary>
public static class Moment
{
    /// <param name="seconds">At least 0.</param>
    public static string Text(double seconds)
    {
        var tenths = (long)Math.Round(seconds * 10);
        var (hours, minutes, rest) = (tenths / 36_000, tenths / 600 % 60, tenths % 600);
        return hours > 0
            ? string.Create(CultureInfo.InvariantCulture, $"{hours}:{minutes:00}:{rest / 10:00}.{rest % 10}")
            : string.Create(CultureInfo.InvariantCulture, $"{minutes}:{rest / 10:00}.{rest % 10}");
    }

    /// <summary>Reads "12.5", "0:12" or "1:02:03.4"; null where it is none, or negative.</summary>
    public static double? Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var parts = text.Split(':');
        if (parts.Length > 3)
            return null;
        var seconds = 0.0;
        for (var i = 0; i < parts.Length; i++)
        {
            var style = i == parts.Length - 1 ? NumberStyles.AllowDecimalPoint : NumberStyles.None;
            if (!double.TryParse(parts[i], style, CultureInfo.InvariantCulture, out var value))
                return null;
            if (i > 0 && value >= 60)
                return null;
            seconds = (seconds * 60) + value;
        }
        return seconds;
    }
}
