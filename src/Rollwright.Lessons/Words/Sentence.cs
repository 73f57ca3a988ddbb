using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Lessons.Words;

/// <summary>What a sentence speaks of.</summary>
public enum SentenceKind
{
    /// <summary>Which bar comes, its chords and its lick; or which bar or phrase it repeats.</summary>
    Bar,

    /// <summary>What the left hand puts down, keeps and lets go.</summary>
    LeftHand,

    /// <summary>What the right hand plucks and where slurs fall: all notes.</summary>
    RightHand,

    /// <summary>Where the notes of the tune are.</summary>
    Tune,

    /// <summary>Names of the notes that matter.</summary>
    Names,
}

/// <summary>One thing that a teacher says.</summary>
/// <param name="Kind">What it speaks of.</param>
/// <param name="Short">For one who has the tab at hand; empty where there is nothing that they would not see.</param>
/// <param name="Long">For one who has only the words: with all others it carries every note.</param>
/// <param name="Strokes">The strokes it describes, in order of time; empty where it speaks of none.</param>
/// <param name="Bars">Indices of the written bars it describes; at least one.</param>
public sealed record Sentence(
    SentenceKind Kind,
    string Short,
    string Long,
    ImmutableArray<StrokeName> Strokes,
    ImmutableArray<int> Bars
)
{
    /// <summary>For one who watches it played: the name of a shape, a roll or a lick, the place of the tune; empty for none of them.</summary>
    public string Brief { get; init; } = "";

    public string In(WordForm form) => form == WordForm.Short ? Short : Long;
}

/// <summary>How much is said.</summary>
public enum WordForm
{
    /// <summary>Beside the tab.</summary>
    Short,

    /// <summary>Without it.</summary>
    Long,
}
