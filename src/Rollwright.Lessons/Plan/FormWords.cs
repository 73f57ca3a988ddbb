using System.Collections.Immutable;
using Rollwright.Banjo.Forms;

namespace Rollwright.Lessons.Plan;

/// <summary>The map of a form in words.</summary>
internal static class FormWords
{
    /// <summary>A line for each part: "A, twice: a b a c (phrases 1 to 4)"; an ending with its number: "c (1.)".</summary>
    public static ImmutableArray<string> Of(ImmutableArray<Part> parts)
    {
        var letters = TeachingOrder.Letters(parts);
        return
        [
            .. parts.Select(part =>
            {
                var phrases = part.Phrases.Select(phrase =>
                    letters[phrase.Number] + (phrase.Ending.Length > 0 ? $" (ending {phrase.Ending.TrimEnd('.')})" : "")
                );
                var (first, last) = (part.Phrases[0].Number, part.Phrases[^1].Number);
                var numbers = first == last ? $"phrase {first}" : $"phrases {first} to {last}";
                return $"{part.Name}{Times(part.Times)}: {string.Join(' ', phrases)} ({numbers})";
            }),
        ];
    }

    private static string Times(int times) =>
        times switch
        {
            1 => "",
            2 => ", twice",
            _ => $", {times} times",
        };
}
