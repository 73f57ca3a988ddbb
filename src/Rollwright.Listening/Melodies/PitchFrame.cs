namespace Rollwright.Listening.Melodies;

/// <summary>What pitch there may be at a moment.</summary>
/// <param name="Candidates">Pitches in MIDI keys with fractions, and how likely each is; together at most 1.</param>
/// <param name="Power">Mean square of the sound.</param>
/// <param name="Flux">How much the spectrum rises here, in log magnitudes summed over its bins.</param>
internal readonly record struct PitchFrame((float Key, float Chance)[] Candidates, float Power, float Flux);
