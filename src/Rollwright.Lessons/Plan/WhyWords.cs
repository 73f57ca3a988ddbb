using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Advice;

namespace Rollwright.Lessons.Plan;

/// <summary>Why a tune is played in its style and setting, with the numbers in words.</summary>
internal static class WhyWords
{
    public static ImmutableArray<string> Of(Arrangement made, TuneAdvice? advice)
    {
        var why = ImmutableArray.CreateBuilder<string>();
        var lies = $"The break lies {OctaveWords.Of(made.Break.Setting.Octave)}";
        // The advice has a share of its own, worked out without the break's settings: two of them would only puzzle.
        var isSaid = advice?.Style == made.Style.Name;
        why.Add(isSaid ? $"{lies}." : $"{lies} and keeps {Percent(made.Kept)} of the tune at its time and pitch.");
        // What the advice says of its own style need not be said of another that was asked for.
        if (advice?.Style == made.Style.Name)
            why.AddRange(advice.Sentences);
        else if (advice is not null)
            why.Add($"It is in {made.Style.Name} style, as it was asked for.");
        return why.ToImmutable();
    }

    private static string Percent(double share) => $"{Math.Round(100 * share):0} %";
}
