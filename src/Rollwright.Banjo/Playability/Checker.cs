using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Banjo.Playability;

/// <summary>
/// Judges any break (made by the solver, typed, or read from a file) by the rules of both hands. It reads the break as
/// played and knows nothing of how it was made.
/// </summary>
public static class Checker
{
    /// <summary>What hands cannot do, in order of the written bars; empty where all can be played.</summary>
    public static ImmutableArray<Finding> Check(Break played)
    {
        var moments = Moment.Of(played);
        return
        [
            .. Rules
                .All.SelectMany(rule => rule.Find(played, moments))
                .Distinct()
                .OrderBy(finding => finding.Bar)
                .ThenBy(finding => finding.At)
                .ThenBy(finding => finding.Rule, StringComparer.Ordinal),
        ];
    }
}
