using Rollwright.Music.Metre;

namespace Rollwright.Music.Chords;

/// <summary>A chord that sounds from a moment of its bar until the next chord, over bar lines too.</summary>
/// <param name="At">Whole notes from the start of the bar.</param>
/// <param name="Chord">The chord.</param>
public readonly record struct ChordAt(Fraction At, Chord Chord);
