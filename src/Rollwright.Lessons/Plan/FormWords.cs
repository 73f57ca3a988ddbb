using System.Collections.Immutable;
using Rollwright.Banjo.Forms;
using Rollwright.Music.Forms;

namespace Rollwright.Lessons.Plan;

/// <summary>The map of a form in words.</summary>
internal static class FormWords
{
    /// <summary>
    /// A line for each part: "A, twice: a b a c (phrases 1 to 4)"; endings by their bars, "the second time bar 9
    /// (e) in place of bar 8", since the rest of such a phrase is played each time.
    /// </summary>
    public static ImmutableArray<string> Of(ImmutableArray<Part> parts, BarNumbering numbering)
    {
        var letters = TeachingOrder.Letters(parts);
        return
        [
            .. parts.Select(part =>
            {
                var main = part.Phrases.Where(phrase => !IsLater(phrase)).Select(phrase => letters[phrase.Number]);
                var endings = part
                    .Phrases.Where(IsLater)
                    .Select(phrase => InPlace(part, phrase, letters[phrase.Number]));
                var (first, last) = (part.Phrases[0].Number, part.Phrases[^1].Number);
                var numbers = first == last ? $"phrase {first}" : $"phrases {first} to {last}";
                return $"{part.Name}{Times(part.Times)}: {string.Join(' ', main)}{string.Concat(endings)} ({numbers})";
            }),
        ];

        // ", the second time bar 9 (e) in place of bar 8".
        string InPlace(Part part, Phrase phrase, string letter)
        {
            var first = part.Phrases.LastOrDefault(other => other.Ending.TrimEnd('.') == "1");
            var instead = first is null ? "" : $" in place of {BarOf(first)}";
            return $", {EndingTimes(phrase.Ending)} {BarOf(phrase)} ({letter}){instead}";
        }

        string BarOf(Phrase phrase) => $"bar {numbering[phrase.Bars[^1]].Name}";
    }

    private static bool IsLater(Phrase phrase) => phrase.Ending.Length > 0 && phrase.Ending.TrimEnd('.') != "1";

    // Endings of several times keep their numbers.
    private static string EndingTimes(string ending) =>
        ending.TrimEnd('.') switch
        {
            "2" => "the second time",
            "3" => "the third time",
            var others => $"the times {others}",
        };

    private static string Times(int times) =>
        times switch
        {
            1 => "",
            2 => ", twice",
            _ => $", {times} times",
        };
}
