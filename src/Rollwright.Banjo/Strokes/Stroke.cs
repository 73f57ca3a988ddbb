using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Strokes;

/// <summary>One note that the hands make: plucked by a right-hand finger, or slurred by the left hand.</summary>
public sealed record Stroke
{
    /// <summary>Whole notes from the start of the bar.</summary>
    public required Fraction At { get; init; }

    /// <summary>
    /// Written length in whole notes: to the next stroke of the break, within the bar. The string itself may ring on.
    /// </summary>
    public required Fraction Length { get; init; }

    /// <summary>1 (nearest the floor) to 5 (the short string).</summary>
    public required int String { get; init; }

    /// <summary>Counted from the capo; 0 open. On string 5 the neck's fret: 0, or 6 and more.</summary>
    public required int Fret { get; init; }

    /// <summary>The plucking finger; null where the note is slurred.</summary>
    public RightFinger? Right { get; init; }

    /// <summary>How the note follows the note before it on the same string; null where it is plucked.</summary>
    public SlurKind? Slur { get; init; }

    /// <summary>Left-hand finger: 1 index to 4 little, 0 thumb; null for an open string.</summary>
    public int? Left { get; init; }

    /// <summary>Whether it carries a note of the tune, at its time.</summary>
    public bool IsMelody { get; init; }
}
