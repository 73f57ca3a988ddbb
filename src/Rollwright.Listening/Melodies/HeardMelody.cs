using System.Collections.Immutable;
using Rollwright.Music.Tunes;

namespace Rollwright.Listening.Melodies;

/// <summary>What one line was heard to be.</summary>
/// <param name="Notes">By onset; empty where no melody was found.</param>
/// <param name="Cents">How far the player is above a' = 440 Hz, -50 to 50.</param>
/// <param name="Tune">The notes in bars; null where no melody was found.</param>
public sealed record HeardMelody(ImmutableArray<MelodyNote> Notes, double Cents, Tune? Tune);
