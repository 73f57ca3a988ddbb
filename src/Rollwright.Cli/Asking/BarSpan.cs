using System.Globalization;
using Rollwright.Cli.Files;
using Rollwright.Music.Forms;

namespace Rollwright.Cli.Asking;

/// <summary>Reads bars as people count them, "5" or "5-8", into indices of written bars.</summary>
internal static class BarSpan
{
    /// <exception cref="RequestException">It is no span, or there are no such bars.</exception>
    public static (int First, int Last) Read(string text, BarNumbering numbering, int count)
    {
        var ends = text.Split('-');
        if (
            ends.Length > 2
            || !int.TryParse(ends[0], NumberStyles.None, CultureInfo.InvariantCulture, out var first)
            || !int.TryParse(ends[^1], NumberStyles.None, CultureInfo.InvariantCulture, out var last)
            || last < first
        )
            throw new RequestException($"--bars: '{text}' is neither a bar nor bars; write 5 or 5-8");
        var numbers = Enumerable.Range(0, count).Select(i => numbering[i].Number).ToList();
        var from = numbers.FindIndex(number => number == first);
        // The pickup of the next part has the number of the bar before it and is not asked for.
        var to = from < 0 ? -1 : numbers.FindIndex(from, number => number == last);
        return from < 0 || to < from
            ? throw new RequestException($"--bars {text}: the break has bars {numbers.Min()} to {numbers.Max()}")
            : (from, to);
    }
}
