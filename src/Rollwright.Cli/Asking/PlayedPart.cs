using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Cli.Files;
using Rollwright.Music.Metre;

namespace Rollwright.Cli.Asking;

/// <summary>Reads which part of a break is to be sounded, in whole notes of the break as it is played.</summary>
internal static class PlayedPart
{
    private const int BarsAPhrase = 2;

    /// <summary>Bars as people count them; where a repeat lies between, the shortest way from the first to the last.</summary>
    /// <exception cref="RequestException">There are no such bars.</exception>
    public static (Fraction From, Fraction To) OfBars(string text, Break played)
    {
        var (first, last) = BarSpan.Read(text, played.Numbering, played.Bars.Length);
        var order = played.Order;
        var end = -1;
        for (var place = 0; place < order.Length && end < 0; place++)
        {
            if (order[place] == last && order.AsSpan(0, place + 1).Contains(first))
                end = place;
        }
        if (end < 0)
            throw new RequestException($"--bars {text}: these bars are not played one after another");
        return Between(played, order.AsSpan(0, end + 1).LastIndexOf(first), end);
    }

    /// <summary>A phrase of two bars by its part and number: "A1", "B3"; with the pickup that leads into it.</summary>
    /// <exception cref="RequestException">There is no such phrase.</exception>
    public static (Fraction From, Fraction To) OfPhrase(string text, Break played)
    {
        var parts = Parts(played);
        var digits = text.Length;
        while (digits > 0 && char.IsAsciiDigit(text[digits - 1]))
            digits--;
        var part = parts.Find(item => item.Name.Equals(text[..digits], StringComparison.OrdinalIgnoreCase));
        if (part.Name is null || !int.TryParse(text.AsSpan(digits), out var number))
            throw new RequestException(
                $"--phrase '{text}': write a part and a number, such as A1; the parts are {string.Join(", ", parts.Select(item => item.Name))}"
            );
        var numbering = played.Numbering;
        var order = played.Order;
        var full = 0;
        var places = new List<int>();
        for (var place = part.First; place <= part.Last; place++)
        {
            if (full / BarsAPhrase == number - 1)
                places.Add(place);
            if (!numbering[order[place]].IsShortInFront)
                full++;
        }
        var phrases = (full + BarsAPhrase - 1) / BarsAPhrase;
        return number >= 1 && number <= phrases
            ? Between(played, places[0], places[^1])
            : throw new RequestException($"--phrase {text}: part {part.Name} has phrases 1 to {phrases}");
    }

    // The first time through each part, as places in the order of play.
    private static List<(string Name, int First, int Last)> Parts(Break played)
    {
        var order = played.Order;
        var parts = new List<(string Name, int First, int Last)>();
        var seen = new HashSet<int>();
        for (var place = 0; place < order.Length; place++)
        {
            if (!seen.Add(order[place]))
                continue;
            var marks = played.Bars[order[place]].Marks;
            var isAnotherEnding = !marks.EndingStart.IsEmpty && order[place - 1] != order[place] - 1;
            var starts =
                place == 0
                || marks.Part is not null
                || marks.RepeatStart
                || (
                    marks.EndingStart.IsEmpty
                    && played.Bars[order[place - 1]].Marks is { SectionEnd: true } or { RepeatEnd: > 1 }
                );
            if (starts && (parts.Count == 0 || HasFullBar(played, parts[^1].First, place)))
                parts.Add((marks.Part ?? $"{(char)('A' + (parts.Count % 26))}", place, place));
            else if (!isAnotherEnding && parts[^1].Last == place - 1)
                parts[^1] = parts[^1] with { Last = place };
        }
        return parts;
    }

    // A pickup before a repeat mark is no part of its own.
    private static bool HasFullBar(Break played, int first, int end) =>
        played.Order[first..end].Any(bar => !played.Numbering[bar].IsShortInFront);

    private static (Fraction From, Fraction To) Between(Break played, int first, int last)
    {
        ImmutableArray<Fraction> lengths = [.. played.Order.Select(bar => played.Bars[bar].Length)];
        var from = lengths.Take(first).Aggregate(Fraction.Zero, (sum, length) => sum + length);
        return (from, lengths[first..(last + 1)].Aggregate(from, (sum, length) => sum + length));
    }
}
