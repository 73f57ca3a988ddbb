using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>
/// Times of a break as people count them aloud: "1", "2-and", in sixteenths "1-e" and "1-a"; 6/8 counts its eighths (common
/// practice, no source). The same count stands under the tab.
/// </summary>
/// <param name="played">The break.</param>
/// <param name="isExcerpt">Whether its bars stand by themselves: their numbers would be taken for those of the tune.</param>
internal sealed class Counting(Break played, bool isExcerpt = false)
{
    private readonly Music.Forms.BarNumbering numbering = played.Numbering;
    private HashSet<string>? shared;

    /// <summary>A bar as it is called: "bar 3", "the pickup to bar 9", "the rest of bar 8"; of an excerpt "the first bar".</summary>
    public string NameOf(int bar)
    {
        if (isExcerpt)
            return played.Bars.Length == 1 ? "the bar" : $"the {Ordinal(bar)} bar";
        if (!numbering[bar].IsShortInFront)
            return $"bar {numbering[bar].Name}";
        var leadsTo = numbering.AtLineStart(bar);
        return leadsTo == numbering[bar].Number
            ? $"the rest of bar {numbering[bar].Name}"
            : $"the pickup to bar {leadsTo}";
    }

    /// <summary>"first" for 0, "second", "third", then "4th", "21st".</summary>
    public static string Ordinal(int index) =>
        (index, (index + 1) % 10, (index + 1) % 100) switch
        {
            (0, _, _) => "first",
            (1, _, _) => "second",
            (2, _, _) => "third",
            (_, 1, not 11) => $"{index + 1}st",
            (_, 2, not 12) => $"{index + 1}nd",
            (_, 3, not 13) => $"{index + 1}rd",
            _ => $"{index + 1}th",
        };

    /// <summary>Whether no other written bar has its name, so that it can be pointed at.</summary>
    public bool IsOnly(int bar)
    {
        shared ??=
        [
            .. Enumerable
                .Range(0, played.Bars.Length)
                .GroupBy(NameOf)
                .Where(named => named.Count() > 1)
                .Select(named => named.Key),
        ];
        return !shared.Contains(NameOf(bar));
    }

    /// <summary>Whole notes of the full bar that lie before a bar short in front.</summary>
    public Fraction MissingBefore(int bar) => numbering[bar].Missing;

    /// <param name="bar">Index of the written bar.</param>
    /// <param name="at">Whole notes from its start.</param>
    public string Of(int bar, Fraction at)
    {
        var counts = (at + MissingBefore(bar)) / played.Bars[bar].Time.Count;
        var (count, rest) = (1 + counts.Floor(), counts % new Fraction(1));
        return (rest.Numerator, rest.Denominator) switch
        {
            (0, _) => $"{count}",
            (1, 2) => $"{count}-and",
            (1, 4) => $"{count}-e",
            (3, 4) => $"{count}-a",
            // Triplets and the like: what is left is said as it is.
            _ => $"{count}-plus-{rest}",
        };
    }

    /// <summary>"1, 2-and and 4".</summary>
    public static string Listed(IReadOnlyList<string> words) =>
        words.Count switch
        {
            0 => "",
            1 => words[0],
            _ => $"{string.Join(", ", words.Take(words.Count - 1))} and {words[^1]}",
        };
}
