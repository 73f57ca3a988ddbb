using System.Collections.Immutable;

namespace Rollwright.Listening.Beside.Meanings;

/// <summary>A phrase in order of play.</summary>
/// <param name="Number">From 1, as on the page.</param>
/// <param name="Pass">On which pass it is played, from 1.</param>
/// <param name="Bars">Indices of its bars in order of play.</param>
public sealed record MeantPhrase(int Number, int Pass, ImmutableArray<int> Bars)
{
    /// <summary>Whether a part begins with it: where players go first when they begin again or leave a repeat out.</summary>
    public bool OpensPart { get; init; }
}
