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
    public required LessonPlan Plan { get; init; }

    /// <summary>How the break came about; null where it was read as it is.</summary>
    public Arrangement? Made { get; init; }

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
}
