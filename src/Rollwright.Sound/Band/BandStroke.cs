using System.Collections.Immutable;

namespace Rollwright.Sound.Band;

/// <summary>What one of the band does at a moment: first some strings are stopped, then some are struck.</summary>
/// <param name="Seconds">From the start of the sound.</param>
/// <param name="Stops">Strings from 1.</param>
/// <param name="Plucks">Strings in the order in which they are struck, and semitones above open.</param>
/// <param name="Strength">1 for a strong stroke.</param>
public readonly record struct BandStroke(
    double Seconds,
    ImmutableArray<int> Stops,
    ImmutableArray<(int String, int Above)> Plucks,
    double Strength
);
