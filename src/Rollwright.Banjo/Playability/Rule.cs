using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Banjo.Playability;

/// <summary>A rule of the hands.</summary>
/// <param name="Id">Short name, such as "finger-again".</param>
/// <param name="Meaning">What it asks, in one sentence.</param>
/// <param name="Bound">The number it holds to, with its unit; "-" where it has none.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Find">The findings in a break, read as played.</param>
public sealed record Rule(
    string Id,
    string Meaning,
    string Bound,
    string Source,
    Func<Break, ImmutableArray<Moment>, IEnumerable<Finding>> Find
);
