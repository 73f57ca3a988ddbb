using System.Collections.Immutable;

namespace Rollwright.Music.Forms;

/// <summary>What the bar lines and labels of one written bar say about the order of play.</summary>
public sealed record BarMarks
{
    public static BarMarks None { get; } = new();

    /// <summary>A repeat begins at the start of this bar (|:).</summary>
    public bool RepeatStart { get; init; }

    /// <summary>How often the span that ends with this bar is played in all: 0 or 1 no repeat, 2 for :|, 3 for ::|.</summary>
    public int RepeatEnd { get; init; }

    /// <summary>The passes on which the ending that starts at this bar is played ([1, [2, [1,3); empty where none starts.</summary>
    public ImmutableArray<int> EndingStart { get; init; } = [];

    /// <summary>An ending's bracket stops at the end of this bar.</summary>
    public bool EndingStop { get; init; }

    /// <summary>A part's label (A, B, …) where a part starts; otherwise null.</summary>
    public string? Part { get; init; }

    /// <summary>A double or final bar line at the end of this bar.</summary>
    public bool SectionEnd { get; init; }

    /// <summary>Whether an ending that is open in this bar is over with it, whether or not its bracket was drawn to an end.</summary>
    public bool ClosesEnding => EndingStop || RepeatEnd > 1 || SectionEnd;

    public bool Equals(BarMarks? other) =>
        other is not null
        && RepeatStart == other.RepeatStart
        && RepeatEnd == other.RepeatEnd
        && EndingStop == other.EndingStop
        && Part == other.Part
        && SectionEnd == other.SectionEnd
        && EndingStart.AsSpan().SequenceEqual(other.EndingStart.AsSpan());

    public override int GetHashCode() => HashCode.Combine(RepeatStart, RepeatEnd, EndingStart.Length, EndingStop, Part);
}
