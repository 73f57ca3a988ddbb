using System.Collections.Immutable;
using Rollwright.Banjo.Forms;
using Rollwright.Music.Forms;

namespace Rollwright.Lessons.Plan;

/// <summary>The map of a form in words.</summary>
internal static class FormWords
{
    /// <summary>
    /// A line for each part: "A, twice: a b a c (phrases 1 to 4)"; endings by their bars: "d (bar 8 the first time) e (bar 9 the
    /// second)", since the rest of such a phrase is played each time.
    /// </summary>
    public static ImmutableArray<string> Of(ImmutableArray<Part> parts, BarNumbering numbering)
    {
        var letters = TeachingOrder.Letters(parts);
        return
        [
            .. parts.Select(part =>
            {
                var phrases = part.Phrases.Select(phrase =>
                    letters[phrase.Number]
                    + (
                        phrase.Ending.Length == 0
                            ? ""
                            : $" (bar {numbering[phrase.Bars[^1]].Name} {EndingTimes(phrase.Ending)})"
                    )
                );
                var (first, last) = (part.Phrases[0].Number, part.Phrases[^1].Number);
                var numbers = first == last ? $"phrase {first}" : $"phrases {first} to {last}";
                return $"{part.Name}{Times(part.Times)}: {string.Join(' ', phrases)} ({numbers})";
            }),
        ];
    }

    // "1." the first time only; endings of several times keep their numbers.
    private static string EndingTimes(string ending) =>
        ending.TrimEnd('.') switch
        {
            "1" => "the first time only",
            "2" => "the second time in its place",
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
