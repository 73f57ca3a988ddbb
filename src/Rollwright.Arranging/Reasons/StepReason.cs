using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;

namespace Rollwright.Arranging.Reasons;

/// <summary>Why a step is done as it is.</summary>
/// <param name="Step">The step of the grid.</param>
/// <param name="Done">What the hands do.</param>
/// <param name="Lick">The lick that it belongs to; null for none.</param>
/// <param name="Terms">What it costs, term by term; for a lick the terms of all its steps stand at the first.</param>
/// <param name="RunnerUp">The best break that sounds something else at this step; null where there is none.</param>
public sealed record StepReason(
    int Step,
    PathStep Done,
    LickPlace? Lick,
    ImmutableArray<(Term Term, int Price)> Terms,
    Alternative? RunnerUp
)
{
    public int Cost => Terms.Sum(entry => entry.Price);
}

/// <summary>Another way to do a step.</summary>
/// <param name="Done">What the hands would do.</param>
/// <param name="Price">How much dearer the whole break would be, everything around it solved again; 0 or more.</param>
public sealed record Alternative(PathStep Done, int Price);
