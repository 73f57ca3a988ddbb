using System.Collections.Immutable;

namespace Rollwright.Listening.Takes;

/// <summary>What was played in a recording.</summary>
/// <param name="Notes">By onset; empty where no plucked notes were found.</param>
/// <param name="Cents">How far the instrument is above a' = 440 Hz, -50 to 50.</param>
public sealed record Heard(ImmutableArray<HeardNote> Notes, double Cents);
