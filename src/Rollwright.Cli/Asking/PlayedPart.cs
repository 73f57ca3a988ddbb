using System.Globalization;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Cli.Files;
using Rollwright.Music.Metre;

namespace Rollwright.Cli.Asking;

/// <summary>Reads which part of a break is to be sounded, in whole notes of the break as it is played.</summary>
internal static class PlayedPart
{
    /// <summary>Bars as people count them: "5", "5-8".</summary>
    /// <exception cref="RequestException">There are no such bars.</exception>
    public static (Fraction From, Fraction To) OfBars(string text, Break played)
    {
        var (first, last) = BarSpan.Read(text, played.Numbering, played.Bars.Length);
        return Between(played, first, last)
            ?? throw new RequestException($"--bars {text}: these bars are not played one after another");
    }

    /// <summary>A phrase by its number through the break, as on the page, or by part and number in it: "3", "B1".</summary>
    /// <exception cref="RequestException">There is no such phrase.</exception>
    public static (Fraction From, Fraction To) OfPhrase(string text, Break played)
    {
        var parts = BreakForm.Of(played);
        var phrase = Find(text, parts.SelectMany(part => part.Phrases).ToList());
        foreach (var part in parts)
        {
            if (phrase is null && text.StartsWith(part.Name, StringComparison.OrdinalIgnoreCase))
                phrase = Find(text[part.Name.Length..], part.Phrases);
        }
        if (phrase is not null && Between(played, phrase.Bars[0], phrase.Bars[^1]) is { } span)
            return span;
        var known = parts.Select(part =>
            part.Phrases.Length == 1 ? $"{part.Name}1" : $"{part.Name}1 to {part.Name}{part.Phrases.Length}"
        );
        throw new RequestException(
            $"--phrase {text}: the phrases are {string.Join(", ", known)}, or 1 to {parts.Sum(part => part.Phrases.Length)}"
        );
    }

    private static Phrase? Find(string number, IReadOnlyList<Phrase> phrases) =>
        int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
        && count >= 1
        && count <= phrases.Count
            ? phrases[count - 1]
            : null;

    // Where a repeat lies between two bars, the shortest way from the one to the other.
    private static (Fraction From, Fraction To)? Between(Break played, int first, int last)
    {
        var order = played.Order;
        for (var end = 0; end < order.Length; end++)
        {
            var start = order.AsSpan(0, end + 1).LastIndexOf(first);
            if (order[end] != last || start < 0)
                continue;
            var from = Sum(played, order.AsSpan(0, start));
            return (from, from + Sum(played, order.AsSpan(start, end + 1 - start)));
        }
        return null;
    }

    private static Fraction Sum(Break played, ReadOnlySpan<int> bars)
    {
        var sum = Fraction.Zero;
        foreach (var bar in bars)
            sum += played.Bars[bar].Length;
        return sum;
    }
}
