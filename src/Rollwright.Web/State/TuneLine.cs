using Rollwright.Music.Tunes;

namespace Rollwright.Web.State;

/// <summary>Finds where a tune begins in its text.</summary>
internal static class TuneLine
{
    /// <summary>The line of its number (X: in ABC 2.1), counted from 1; null where the text has none such.</summary>
    public static int? Of(string text, Tune tune)
    {
        int? found = null;
        var lines = text.Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            var line = lines[i].Trim();
            if (line.StartsWith("X:", StringComparison.Ordinal))
                found = int.TryParse(line.AsSpan(2).Trim(), out var number) && number == tune.Number ? i + 1 : null;
            else if (
                found is not null
                && line.StartsWith("T:", StringComparison.Ordinal)
                && line[2..].Trim() == tune.Title
            )
                return found;
        }
        return found;
    }
}
