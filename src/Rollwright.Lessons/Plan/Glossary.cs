using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Strokes;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Plan;

/// <summary>The words of the trade that a lesson uses, a sentence each (common practice, no source).</summary>
internal static class Glossary
{
    /// <summary>In the order in which a reader meets them; of what the lesson does not use nothing is said.</summary>
    public static ImmutableArray<string> Of(LessonPlan plan)
    {
        var all = Music(plan);
        var bars = all.SelectMany(played => played.Bars).ToList();
        var slurs = bars.SelectMany(bar => bar.Strokes).Select(stroke => stroke.Slur).ToHashSet();
        var spans = all.SelectMany(played => played.Spans).ToList();
        (bool IsUsed, string Words)[] entries =
        [
            (plan.Played.Bars[0].IsPartial, "A pickup is the few notes before the first full bar."),
            (
                bars.Exists(bar => !bar.Chords.IsEmpty),
                plan.Played.Setting.Capo == 0
                    ? "\"Over G\": the others play the chord G there."
                    : "\"Over G\": the chord there is the one that your hands call G."
            ),
            (
                plan.Words.Any(phrase =>
                    phrase.Sentences.Any(one => one.Long.Contains(" shape", StringComparison.Ordinal))
                ),
                "A shape is a chord as the fingers lie for it, called after the chord that it is first learnt as, wherever it is moved to."
            ),
            (
                plan.Drills.Any(drill => drill.Words.Contains("step", StringComparison.Ordinal)),
                "A step is the time from one count to the next."
            ),
            (spans.Exists(span => span.Kind == SpanKind.Roll), "A roll is a pattern of the right hand."),
            (
                spans.Exists(span => span.Kind is SpanKind.Lick or SpanKind.Tag),
                "A lick is a short phrase that fits many tunes."
            ),
            (
                bars.SelectMany(bar => Slot.Of(bar)).Any(slot => slot.Plucks.Length > 1),
                "A pinch: its fingers pluck together, on one count."
            ),
            (
                slurs.Contains(SlurKind.HammerOn),
                "A hammer-on: a left finger comes down hard on a string that sounds, and the new note sounds."
            ),
            (
                slurs.Contains(SlurKind.PullOff),
                "A pull-off: a left finger plucks the string in leaving it, most often towards the floor."
            ),
            (slurs.Contains(SlurKind.Slide), "A slide: a left finger goes along the string while it sounds."),
            (slurs.Contains(SlurKind.Choke), "A choke: a left finger pushes the string aside, and the note rises."),
            (
                slurs.Any(slur => slur is not null),
                "Each of these is a slur. Among the notes it has a count of its own, like \"hammer the middle finger onto string 3 at fret 2\": the left hand makes the note there, and the right hand plucks nothing."
            ),
        ];
        return [.. entries.Where(entry => entry.IsUsed).Select(entry => entry.Words)];
    }

    /// <summary>Whether a slur comes half-way between two counts anywhere in the lesson.</summary>
    public static bool HasHalves(LessonPlan plan) =>
        Music(plan).SelectMany(played => played.Bars).SelectMany(bar => Slot.Of(bar)).Any(slot => !slot.AtOnce.IsEmpty);

    private static ImmutableArray<Break> Music(LessonPlan plan) =>
        [
            plan.Played,
            .. plan.Drills.SelectMany(drill => drill.Takes).Select(take => take.Played),
            .. plan.Behind.Select(part => part.Played),
        ];
}
