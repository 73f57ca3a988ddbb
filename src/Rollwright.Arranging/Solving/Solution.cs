using System.Collections.Immutable;
using Rollwright.Arranging.Lattice;

namespace Rollwright.Arranging.Solving;

/// <summary>The best path and what each of its steps costs.</summary>
/// <param name="Path">One entry for each step of the grid.</param>
/// <param name="Costs">Cost of each step, thousandths; a whole lick's stands at its first step.</param>
/// <param name="Nodes">Before each step the shape held and the right hand's state, as indices of the lattice; inside a lick unset.</param>
/// <param name="Ends">The same after the last step of each bar.</param>
/// <param name="Joins">Cost of the jumps from the end of a repeat to its beginning.</param>
/// <param name="Licks">The licks on the path, in order of their first step.</param>
/// <param name="IsPossible">False where the locks leave no way that hands can play.</param>
public sealed record Solution(
    PathStep[] Path,
    int[] Costs,
    (int Shape, int State)[] Nodes,
    (int Shape, int State)[] Ends,
    int Joins,
    ImmutableArray<LickPlace> Licks,
    bool IsPossible
)
{
    public int Total => Costs.Sum() + Joins;
}
