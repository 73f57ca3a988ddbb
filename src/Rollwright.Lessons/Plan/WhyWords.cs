using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Advice;
using Rollwright.Banjo.Breaks;

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
        if (Room(made.Break) is { } room && made.Style.Name is "roll" or "mixed")
            why.Add(
                $"The tune has a new note on {Percent(room)} of the counts of its bars: roll notes fill the others."
            );
        // What the advice says of its own style need not be said of another that was asked for.
        if (advice?.Style == made.Style.Name)
            why.AddRange(advice.Sentences);
        else if (advice is not null)
            why.Add($"It is in {made.Style.Name} style, as it was asked for.");
        var ways = advice?.Ways.Where(way => way.Style == made.Style.Name).ToList() ?? [];
        if (ways.Count > 1 && ways[0].Setting == made.Break.Setting)
            why.Add(
                $"Of the {ways.Count} keys and tunings of the banjo that were weighed for it, this one loses least of the tune for what it asks of the hands."
            );
        return why.ToImmutable();
    }

    // The share of the steps on which the tune has a new note; null where it is not known.
    private static double? Room(Break played)
    {
        if (played.Tune is not { } tune)
            return null;
        var steps = played.Bars.Sum(bar => (bar.Length / bar.Time.Step).ToDouble());
        var notes = tune.Bars.Sum(bar =>
            bar.Notes.Where(note => !note.TiedFromBefore).DistinctBy(note => note.At).Count()
        );
        return notes < steps ? notes / steps : null;
    }

    private static string Percent(double share) => $"{Math.Round(100 * share):0} %";
}
