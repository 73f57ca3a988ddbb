using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Arranging.Chording;

/// <summary>One beat: where it is, which beat it follows, and what is so at it.</summary>
internal sealed record Beat(int Bar, Fraction At)
{
    /// <summary>Index of the beat before it in play, always lower; -1 for the first.</summary>
    public required int Before { get; init; }

    /// <summary>Semitones of the bar's tonic above the tune's.</summary>
    public required int Tonic { get; init; }

    /// <summary>0 for keys with a major third, 1 for those with a minor one.</summary>
    public required int Key { get; init; }

    /// <summary>Whether it belongs to the last bar of a part.</summary>
    public required bool IsEnd { get; init; }

    /// <summary>Rows that speak for chords as seen from a note, semitones above the tune's tonic, and how loudly.</summary>
    public required ImmutableArray<(int Row, int From, double Amount)> Said { get; init; }

    /// <summary>Rows that speak for a change of chord at the start of this beat.</summary>
    public required ImmutableArray<int> Changes { get; init; }

    /// <summary>Beats with one number are alike: the same place in a bar of the same melody.</summary>
    public required int Like { get; init; }

    /// <summary>0 at the start of a bar, 1 at its half, 2 elsewhere.</summary>
    public required int Place { get; init; }
}
