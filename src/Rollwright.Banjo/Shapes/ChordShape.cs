using Rollwright.Music.Chords;

namespace Rollwright.Banjo.Shapes;

/// <summary>A chord under the left hand.</summary>
/// <param name="Chord">What it sounds, as the hands know it (no capo).</param>
/// <param name="Shape">Frets and fingers.</param>
/// <param name="RootString">The string with the root; null where the shape has none.</param>
/// <param name="IsMovable">From a family that moves along the neck.</param>
public sealed record ChordShape(Chord Chord, HandShape Shape, int? RootString, bool IsMovable);
