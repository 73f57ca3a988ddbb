using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Advice;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Drills;
using Rollwright.Lessons.Practice;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Plan;

/// <summary>
/// A lesson, worked out from a break: what the tune is, why it is played so, how to set up, the form, the phrases in teaching
/// order with their words, drills, variations, what to play behind others, how to practise. A value: whoever teaches changes
/// what they like.
/// </summary>
public sealed record LessonPlan
{
    public required Break Played { get; init; }

    public required TuneFacts Tune { get; init; }

    /// <summary>1 to 5; null for a break that was not arranged here.</summary>
    public int? Level { get; init; }

    /// <summary>Why the style and the setting suit the tune, in sentences; empty where only the break is known.</summary>
    public required ImmutableArray<string> Why { get; init; }

    /// <summary>What the lesson teaches the hands, a line each.</summary>
    public required ImmutableArray<string> Learnt { get; init; }

    public required PlayingAlong Setting { get; init; }

    /// <summary>A line for each part: "A, twice: a b a c (phrases 1 to 4)".</summary>
    public required ImmutableArray<string> Form { get; init; }

    /// <summary>The phrases in teaching order, equal ones once.</summary>
    public required ImmutableArray<TeachingStep> Steps { get; init; }

    /// <summary>What is said of each phrase, in teaching order.</summary>
    public required ImmutableArray<PhraseWords> Words { get; init; }

    public required ImmutableArray<Drill> Drills { get; init; }

    public required ImmutableArray<Variation> Variations { get; init; }

    public required ImmutableArray<BehindOthers> Behind { get; init; }

    /// <summary>How hard the break is and how it is learnt, in sentences.</summary>
    public required ImmutableArray<string> Practice { get; init; }

    /// <summary>Of a break alone, as it was typed or read: without variations and what else asks for the tune to be solved.</summary>
    /// <exception cref="LessonException">The break has no note.</exception>
    public static LessonPlan Of(Break played) => Make(played, null, [], [], []);

    /// <summary>Of an arrangement.</summary>
    /// <param name="made">The break and how it came about.</param>
    /// <param name="level">1 to 5: for what is played behind others.</param>
    /// <param name="advice">Settings and styles compared; null where nobody asked.</param>
    public static LessonPlan Of(Arrangement made, int level, TuneAdvice? advice = null)
    {
        ArgumentNullException.ThrowIfNull(made);
        return Make(made.Break, made, WhyWords.Of(made, advice), Variation.Of(made), BehindOthers.Of(made, level)) with
        {
            Level = level,
        };
    }

    private static LessonPlan Make(
        Break played,
        Arrangement? made,
        ImmutableArray<string> why,
        ImmutableArray<Variation> variations,
        ImmutableArray<BehindOthers> behind
    )
    {
        if (played.Bars.All(bar => bar.Strokes.IsEmpty))
            throw new LessonException("the break has no note: there is nothing to teach");
        var steps = TeachingOrder.Of(played, made?.Spots() ?? []);
        return new()
        {
            Played = played,
            Tune = TuneFacts.Of(played),
            Why = why,
            Learnt = Techniques.Of(played),
            Setting = PlayingAlong.Of(played),
            Form = FormWords.Of(BreakForm.Of(played), played.Numbering),
            Steps = steps,
            Words = PhraseWords.Of(played, [.. steps.Select(step => step.Phrase)]),
            Drills = DrillMaker.Of(played, made),
            Variations = variations,
            Behind = behind,
            Practice = PracticeWords.Of(played, PracticeHabits.Usual),
        };
    }
}
