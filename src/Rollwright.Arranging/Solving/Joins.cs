using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Solving;

/// <summary>The jumps of play from the end of a bar to the settled beginning of one that stands already.</summary>
internal sealed class Joins(StepLattice lattice, Overlay overlay)
{
    /// <summary>Cost of the jumps from each node at the end of a bar, at [state * Width + shape]; zeros where none jumps.</summary>
    public int[] At(int bar)
    {
        var shapes = ShapesAtEnd(bar);
        var width = ShapePair.Padded(shapes.Length);
        var states = lattice.RightHands[bar].Last;
        var sum = new int[states.Length * width];
        foreach (var first in Targets(bar))
        {
            for (var r = 0; r < states.Length; r++)
            {
                for (var l = 0; l < shapes.Length; l++)
                {
                    ref var cost = ref sum[(r * width) + l];
                    cost = CanJoin(states[r], shapes[l], first)
                        ? cost + Price(states[r], shapes[l], first)
                        : Solver.Infinity;
                }
            }
        }
        return sum;
    }

    /// <summary>The terms of the jumps from one node at the end of a bar.</summary>
    public void Of<T>(ref T tally, int bar, int held, int state)
        where T : struct, ITally
    {
        foreach (var first in Targets(bar))
            Of(ref tally, lattice.RightHands[bar].Last[state], ShapesAtEnd(bar)[held], first);
    }

    private HandShape[] ShapesAtEnd(int bar) => lattice.Shapes[lattice.Grid.Bars[bar].End.Value - 1];

    // What is played first where play jumps on from the end of a bar.
    private IEnumerable<PathStep> Targets(int bar)
    {
        foreach (var (from, to) in lattice.Grid.Tree.Seams)
        {
            if (from == bar && overlay.SeamTargets.TryGetValue(to, out var first))
                yield return first;
        }
    }

    private static bool CanJoin(RightState state, HandShape shape, PathStep first) =>
        (state.Tired & first.Event.FingerMask) == 0 && MovePrice.IsPossible(shape, first.Shape);

    private int Price(RightState state, HandShape shape, PathStep first)
    {
        var sum = new Sum();
        Of(ref sum, state, shape, first);
        return sum.Total;
    }

    private void Of<T>(ref T tally, RightState state, HandShape shape, PathStep first)
        where T : struct, ITally
    {
        lattice.Style.Moves.Of(ref tally, shape, first.Shape);
        if (first.Event.Plucks.Any(pluck => pluck.String == state.String))
            tally.Add(Term.SameString, lattice.Style.Weights[Term.SameString]);
    }
}
