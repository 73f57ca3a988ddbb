using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Listening.Takes;

/// <summary>What was played in a recording.</summary>
/// <param name="Notes">By onset; empty where no plucked notes were found.</param>
/// <param name="Cents">How far the instrument is above a' = 440 Hz, -50 to 50.</param>
public sealed record Heard(ImmutableArray<HeardNote> Notes, double Cents)
{
    /// <summary>The same as a break that hands can play; null where no notes were found.</summary>
    public Break? Break { get; init; }

    /// <summary>Seconds at which each bar of the break begins, its end last; empty where there is none.</summary>
    public ImmutableArray<double> BarTimes { get; init; } = [];

    /// <summary>How far the second step of each pair comes late, in steps: 0 for even, 1/3 for two to one.</summary>
    public double Swing { get; init; }
}
