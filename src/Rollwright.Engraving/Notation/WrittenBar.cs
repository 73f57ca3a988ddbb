using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Notation;

/// <summary>A bar of a break as it is written down: what stands one after the other, with its values and spelling.</summary>
/// <param name="Index">Of the written bar.</param>
/// <param name="Bar">What is played.</param>
/// <param name="Number">What stands over a line that begins with it.</param>
/// <param name="Offset">Whole notes that are missing at its front, as in a pickup.</param>
/// <param name="Moments">In order of time.</param>
/// <param name="IsFinal">Whether the piece ends with it.</param>
internal sealed record WrittenBar(
    int Index,
    BreakBar Bar,
    int Number,
    Fraction Offset,
    ImmutableArray<WrittenMoment> Moments,
    bool IsFinal
)
{
    public bool IsPickup => Offset > Fraction.Zero;
}

/// <summary>What stands at one place of the staff: a note, notes struck together, or a rest.</summary>
/// <param name="At">Whole notes from the start of the bar.</param>
/// <param name="Length">Whole notes that pass until the next moment.</param>
/// <param name="Value">As written.</param>
/// <param name="Notes">From low to high; none for a rest.</param>
/// <param name="Continues">Tied to the moment before: nothing is struck.</param>
/// <param name="Triplet">Three are played in the time of two as written.</param>
/// <param name="Beam">Moments of one bar with the same number are under one beam; -1 for none.</param>
internal sealed record WrittenMoment(
    Fraction At,
    Fraction Length,
    NoteValue Value,
    ImmutableArray<WrittenNote> Notes,
    bool Continues = false,
    bool Triplet = false,
    int Beam = -1
)
{
    public bool IsRest => Notes.IsEmpty;

    /// <summary>Whether strokes start here, so that the tab has numbers.</summary>
    public bool IsStruck => !IsRest && !Continues;
}

/// <summary>A note of a moment.</summary>
/// <param name="Step">Place on the staff: steps above the middle line.</param>
/// <param name="Accidental">The alteration to print before it; null for none.</param>
/// <param name="Stroke">Index of the stroke in its bar.</param>
internal readonly record struct WrittenNote(int Step, int? Accidental, int Stroke);
