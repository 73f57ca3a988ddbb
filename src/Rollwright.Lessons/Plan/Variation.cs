using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Version = Rollwright.Arranging.Variations.Version;

namespace Rollwright.Lessons.Plan;

/// <summary>Another way to play the break.</summary>
/// <param name="Name">"up the neck".</param>
/// <param name="Changes">What it changes, in a sentence or two.</param>
/// <param name="Played">The break so played.</param>
public sealed record Variation(string Name, string Changes, Break Played)
{
    /// <summary>As many as a lesson has room for.</summary>
    public const int Most = 3;

    // In the order in which they are tried: those that give a lesson most to talk about first (assumption).
    private static readonly string[] Tried = ["other-licks", "up-the-neck", "more-slurs", "syncopated", "pairs"];

    public static ImmutableArray<Variation> Of(Arrangement made)
    {
        ArgumentNullException.ThrowIfNull(made);
        var variations = ImmutableArray.CreateBuilder<Variation>(Most);
        var before = new List<Arrangement> { made };
        foreach (var name in Tried)
        {
            if (variations.Count == Most)
                break;
            if (Version.Find(name) is not { } version)
                continue;
            var (other, share) = made.Versions(version, 1)[0];
            // What differs hardly from what is there is no variation; what leaves the tune is another piece (assumptions).
            if (other.Kept < 0.75 || before.Any(one => one.ShareOtherwise(other) < 0.1))
                continue;
            before.Add(other);
            variations.Add(new(name.Replace('-', ' '), Words(made, other, share), other.Break));
        }
        return variations.ToImmutable();
    }

    private static string Words(Arrangement made, Arrangement other, double share)
    {
        var phrases = BreakForm.Phrases(made.Break);
        var changed = phrases
            .Where(phrase =>
                phrase.Bars.Any(bar =>
                    !made.Break.Bars[bar].Strokes.AsSpan().SequenceEqual(other.Break.Bars[bar].Strokes.AsSpan())
                )
            )
            .Select(phrase => $"{phrase.Number}")
            .ToList();
        var where =
            changed.Count == phrases.Length ? "in every phrase"
            : changed.Count == 1 ? $"in phrase {changed[0]}"
            : $"in phrases {Lessons.Words.Counting.Listed(changed)}";
        var (before, after) = (Highest(made.Break), Highest(other.Break));
        var neck = before == after ? "" : $" The highest fret is {after} rather than {before}.";
        var (few, many) = (Slurs(made.Break), Slurs(other.Break));
        var slurs = few == many ? "" : $" It has {Counted(many)} where the break has {(few == 0 ? "none" : $"{few}")}.";
        var licks = LicksOf(other.Break).Except(LicksOf(made.Break)).Take(3).ToList();
        var put = licks.Count == 0 ? "" : $" New licks: {string.Join(", ", licks.Select(lick => $"'{lick}'"))}.";
        return $"{Percent(share)} of the steps sound otherwise, {where}; {Percent(other.Kept)} of the tune is kept.{neck}{slurs}{put}";
    }

    private static string Counted(int slurs) =>
        slurs switch
        {
            0 => "no slurs",
            1 => "1 slur",
            _ => $"{slurs} slurs",
        };

    private static string Percent(double share) => $"{100 * share:0} %";

    private static int Highest(Break played) => played.Bars.SelectMany(bar => bar.Strokes).Max(stroke => stroke.Fret);

    private static int Slurs(Break played) =>
        played.Bars.Sum(bar => bar.Strokes.Count(stroke => stroke.Slur is not null));

    private static IEnumerable<string> LicksOf(Break played) =>
        played.Spans.Where(span => span.Kind is SpanKind.Lick or SpanKind.Tag).Select(span => span.Name).Distinct();
}
