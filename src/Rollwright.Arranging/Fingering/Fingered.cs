using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Arranging.Fingering;

/// <summary>Given notes with strings and fingers.</summary>
/// <param name="Break">The notes that hands can play, none added.</param>
/// <param name="Left">The notes that they cannot, in order of time; empty where all is played.</param>
public sealed record Fingered(Break Break, ImmutableArray<Fingered.LeftOut> Left)
{
    /// <param name="Bar">Index of the written bar.</param>
    /// <param name="At">Whole notes from the start of the bar.</param>
    /// <param name="Pitch">The note as given.</param>
    /// <param name="Why">In words that follow "C#3: ".</param>
    public sealed record LeftOut(int Bar, Fraction At, Pitch Pitch, string Why);
}
