using System.Collections.Immutable;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;

namespace Rollwright.Arranging.Spots;

/// <summary>A span of a bar in which several licks fit about as well as what stands there.</summary>
/// <param name="Bar">Index of the written bar.</param>
/// <param name="At">Whole notes from the start of the bar.</param>
/// <param name="Length">Whole notes.</param>
/// <param name="Chord">The chord where it begins.</param>
/// <param name="Count">How many licks fit within the price that was asked.</param>
/// <param name="Best">The best of them, cheapest first.</param>
public sealed record Spot(int Bar, Fraction At, Fraction Length, Chord? Chord, int Count, ImmutableArray<LickFit> Best);
