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
        why.Add(
            $"In {made.Style.Name} style the break keeps {Percent(made.Kept)} of the tune at its time and pitch, {OctaveWords.Of(made.Break.Setting.Octave)}."
        );
        if (advice is null)
            return why.ToImmutable();
        why.AddRange(advice.Sentences);
        var other = advice.Ways.FirstOrDefault(way =>
            way.Style != made.Style.Name && way.Setting == made.Break.Setting
        );
        if (other is not null)
            why.Add(
                $"In the same setting {other.Style} style would keep {Percent(other.Kept)}, with {Compared(advice, made, other)}."
            );
        return why.ToImmutable();
    }

    private static string Compared(TuneAdvice advice, Arrangement made, AdvisedWay other)
    {
        var own = advice.Ways.FirstOrDefault(way => way.Style == made.Style.Name && way.Setting == made.Break.Setting);
        return own is null || own.Work == other.Work ? "as much work for the hands"
            : other.Work > own.Work ? "more work for the hands"
            : "less work for the hands";
    }

    private static string Percent(double share) => $"{Math.Round(100 * share):0} %";
}
