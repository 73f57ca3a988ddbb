using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Engraving;
using Rollwright.Lessons.Captions;
using Rollwright.Lessons.Documents;
using Rollwright.Lessons.Page;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Strips;
using Rollwright.Lessons.Templates;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;
using Rollwright.Music.Chords;

namespace Rollwright.Lessons.Outputs;

/// <summary>What the documents of a lesson are made of: the plan, and what whoever teaches asked for.</summary>
public sealed record Lesson
{
    // Dear to find, and the same whatever words are put to the phrases: a copy with other words goes on with what was found.
    private Lazy<ImmutableArray<LickSwap>>? swaps;

    public required LessonPlan Plan
    {
        get;
        init => (field, swaps) = (value, null);
    }

    /// <summary>How the break came about; null where it was read as it is.</summary>
    public Arrangement? Made
    {
        get;
        init => (field, swaps) = (value, null);
    }

    /// <summary>Licks that a reader may put into the phrases; none for a break without its tune.</summary>
    public ImmutableArray<LickSwap> Swaps => (swaps ??= new(FindSwaps)).Value;

    /// <summary>A person's words for phrases.</summary>
    public LessonText Edits { get; init; } = LessonText.Empty;

    /// <summary>How much is said of each phrase.</summary>
    public WordForm Form { get; init; } = WordForm.Long;

    /// <summary>When each bar is played in the video.</summary>
    public required BarTimes Times { get; init; }

    /// <summary>A recorded take to stand on the page; null for none.</summary>
    public LessonVideo? Video { get; init; }

    /// <summary>How the strip of tab for a video looks.</summary>
    public StripLook Strip { get; init; } = new();

    /// <summary>A4 or Letter.</summary>
    public PageStyle Paper { get; init; } = PageStyle.A4;

    /// <summary>Width of an article's column, in millimetres.</summary>
    public double ColumnWidth { get; init; } = 85;

    /// <summary>How the jam sheet numbers its chords.</summary>
    public NumberStyle Numbers { get; init; }

    /// <summary>What whoever teaches says first.</summary>
    public Introduction Introduction { get; init; } = Introduction.None;

    /// <summary>The template of the lesson or article that was asked for; null for the program's own.</summary>
    public Template? Template { get; init; }

    /// <summary>As it is usually made: at the break's own tempo, for A4, without words of anybody's own.</summary>
    public static Lesson Of(LessonPlan plan, Arrangement? made = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new()
        {
            Plan = plan,
            Made = made,
            Times = BarTimes.At(plan.Played),
        };
    }

    private ImmutableArray<LickSwap> FindSwaps() =>
        Made is { } made ? LickSwap.Of(made, Plan.Steps.Select(step => step.Phrase)) : [];
}
