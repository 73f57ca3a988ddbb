using System.Collections.Immutable;
using Rollwright.Arranging.Spots;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Plan;

/// <summary>
/// The order in which phrases are taught, equal ones once: first the defining one (heard most often; of equals the one that
/// comes first), then those that carry the tune, then those that leave the player free, last those that end a part. Within
/// each, the order of the break (assumption: as lessons are told in the trade).
/// </summary>
public static class TeachingOrder
{
    /// <summary>The order in words, for whoever wonders why phrase 5 stands before phrase 4.</summary>
    public const string Words =
        "The phrases come in the order in which to learn them: first what you play most often, then the tune as it goes on, then "
        + "where you are free, and last the endings.";

    /// <summary>A phrase is free where spots with as many licks cover half of it (assumption).</summary>
    private const int LicksOfASpot = 3;

    /// <param name="played">The break.</param>
    /// <param name="spots">Where licks fit; empty where that is not known.</param>
    public static ImmutableArray<TeachingStep> Of(Break played, ImmutableArray<Spot> spots)
    {
        ArgumentNullException.ThrowIfNull(played);
        var (parts, order) = (BreakForm.Of(played), played.Order);
        var all = parts.SelectMany(part => part.Phrases.Select(phrase => (Part: part, Phrase: phrase))).ToList();
        var letters = Letters(parts);
        var groups = all.GroupBy(one => one.Phrase.Like)
            .Select(group => group.ToList())
            .Select(group => new TeachingStep(
                group[0].Phrase.Number,
                group[0].Part.Name,
                letters[group[0].Phrase.Number],
                group.TrueForAll(one => EndsPart(one.Part, one.Phrase)) ? TeachingReason.Ending
                    : IsFree(played, group[0].Phrase, spots) ? TeachingReason.Free
                    : TeachingReason.Tune,
                [.. group.Skip(1).Select(one => one.Phrase.Number)],
                group.Sum(one => order.Count(bar => bar == one.Phrase.Bars[^1]))
            ))
            .ToList();
        var defining = groups
            .OrderBy(step => step.Reason == TeachingReason.Ending)
            .ThenByDescending(step => step.Times)
            .ThenBy(step => step.Phrase)
            .First();
        return
        [
            defining with
            {
                Reason = TeachingReason.Defining,
            },
            .. groups.Where(step => step != defining).OrderBy(step => step.Reason).ThenBy(step => step.Phrase),
        ];
    }

    /// <summary>A letter for each phrase by its number, in the order of the break: a b a c.</summary>
    public static ImmutableDictionary<int, string> Letters(ImmutableArray<Part> parts)
    {
        var letters = ImmutableDictionary.CreateBuilder<int, string>();
        var count = 0;
        foreach (var phrase in parts.SelectMany(part => part.Phrases))
            letters[phrase.Number] = phrase.IsAgain ? letters[phrase.Like] : LetterOf(count++);
        return letters.ToImmutable();
    }

    // After z come a2, b2 …
    private static string LetterOf(int index) =>
        $"{(char)('a' + (index % 26))}{(index < 26 ? "" : $"{1 + (index / 26)}")}";

    private static bool EndsPart(Part part, Phrase phrase) => phrase.Ending.Length > 0 || phrase == part.Phrases[^1];

    private static bool IsFree(Break played, Phrase phrase, ImmutableArray<Spot> spots)
    {
        var (free, whole) = (Fraction.Zero, Fraction.Zero);
        foreach (var bar in phrase.Bars)
        {
            whole += played.Bars[bar].Length;
            var until = Fraction.Zero;
            foreach (
                var spot in spots.Where(spot => spot.Bar == bar && spot.Count >= LicksOfASpot).OrderBy(spot => spot.At)
            )
            {
                var end = Fraction.Min(spot.At + spot.Length, played.Bars[bar].Length);
                free += Fraction.Max(Fraction.Zero, end - Fraction.Max(spot.At, until));
                until = Fraction.Max(until, end);
            }
        }
        return free * 2 >= whole && free > Fraction.Zero;
    }
}
