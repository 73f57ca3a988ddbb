using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Arranging.Chording;

/// <summary>One beat: where it is, which beat it follows, and what is so at it.</summary>
/// <param name="Bar">Index of the written bar.</param>
/// <param name="At">Whole notes from the start of the bar.</param>
internal sealed record Beat(int Bar, Fraction At)
{
    /// <summary>Index of the beat before it in play, always lower; -1 for the first.</summary>
    public required int Before { get; init; }

    /// <summary>Semitones of the bar's tonic above the tune's, 0 to 11.</summary>
    public required int Tonic { get; init; }

    /// <summary>0 for keys with a major third, 1 for those with a minor one.</summary>
    public required int Key { get; init; }

    public required BeatWeight Weight { get; init; }

    /// <summary>Whether it belongs to the last bar of a part, where cadences are.</summary>
    public required bool IsEnd { get; init; }

    /// <summary>
    /// What speaks for chords: a row of <see cref="HarmonyRows"/>, the note it is seen from (semitones above the tune's
    /// tonic), and how loudly it speaks.
    /// </summary>
    public required ImmutableArray<(int Row, int From, double Amount)> Evidence { get; init; }

    /// <summary>What speaks for a change: rows of <see cref="ChangeRows"/>.</summary>
    public required ImmutableArray<int> Changes { get; init; }

    /// <summary>Beats with one number are alike: the same place in bars of the same melody.</summary>
    public required int Like { get; init; }
}
