using System.Collections.Immutable;
using System.Numerics;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Wishes;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// The exact shortest path through the lattice by dynamic programming from the end: for every node the least cost of all
/// that is still to come. Bars with two endings are nodes with two futures, whose costs add. Costs are whole numbers, so
/// sums are exact and equal on every machine; equal costs are decided by the fixed order of shapes and events.
/// </summary>
/// <remarks>
/// Nodes of a step are stored state by state, the shapes of a state side by side, so that the two inner loops (what the
/// right hand does, where the left hand goes) run over whole vectors of shapes.
/// </remarks>
public sealed class Solver
{
    private const int Infinity = MovePrice.Impossible;

    private readonly StepLattice lattice;
    private readonly Overlay overlay;
    private readonly StepOverlay[] steps;

    /// <summary>Least cost of the future before each step, at [state * WidthBefore + shape held].</summary>
    private readonly int[][] future;

    /// <summary>Least cost of the future after each step, at [state * Width + shape].</summary>
    private readonly int[][] after;

    private readonly LickEdge[][] licks;

    private Solver(StepLattice lattice, Overlay overlay)
    {
        this.lattice = lattice;
        this.overlay = overlay;
        future = new int[lattice.Grid.Steps.Length][];
        after = new int[lattice.Grid.Steps.Length][];
        licks = new LickEdge[lattice.Grid.Steps.Length][];
        steps = new StepOverlay[lattice.Grid.Steps.Length];
    }

    /// <summary>The best path: one entry for each step of the grid.</summary>
    public static Solution Solve(StepLattice lattice, Overlay overlay)
    {
        var solver = new Solver(lattice, overlay);
        solver.Backward();
        return solver.Forward();
    }

    private StepGrid Grid => lattice.Grid;

    private RightHand.Layer LayerOf(int step)
    {
        var bar = Grid.Steps[step].Bar;
        return lattice.RightHands[bar].At(step - Grid.FirstOf(bar));
    }

    private void Backward()
    {
        for (var bar = Grid.Bars.Length - 1; bar >= 0; bar--)
        {
            var next = Terminal(bar);
            for (var step = Grid.Bars[bar].End.Value - 1; step >= Grid.FirstOf(bar); step--)
            {
                steps[step] = new StepOverlay(lattice, overlay, step);
                licks[step] =
                [
                    .. lattice
                        .Licks[step]
                        .Select(place => LickEdge.Of(lattice, place, s => steps[s]))
                        .OfType<LickEdge>(),
                ];
                after[step] = next;
                next = future[step] = StepBack(step, next);
            }
        }
    }

    // What follows the end of a bar: the sum over the bars after it, and the jumps back to bars that stand already.
    private int[] Terminal(int bar)
    {
        var shapes = lattice.ShapeIds[Grid.Bars[bar].End.Value - 1];
        var width = StepPrices.Padded(shapes.Length);
        var states = lattice.RightHands[bar].Last;
        var sum = new int[states.Length * width];
        foreach (var child in Grid.Tree.Children[bar])
        {
            var more = future[Grid.FirstOf(child)];
            for (var i = 0; i < sum.Length; i++)
                sum[i] = Math.Min(Infinity, sum[i] + more[i]);
        }
        foreach (var (from, to) in Grid.Tree.Seams)
        {
            if (from != bar || !overlay.SeamTargets.TryGetValue(to, out var first))
                continue;
            for (var r = 0; r < states.Length; r++)
            {
                var join = JoinCost(states[r], first);
                for (var l = 0; l < shapes.Length; l++)
                {
                    ref var cost = ref sum[(r * width) + l];
                    cost = Math.Min(Infinity, cost + join + lattice.Move(shapes[l], lattice.IdOf(first.Shape)));
                }
            }
        }
        return sum;
    }

    private int JoinCost(RightState state, PathStep first)
    {
        var happening = RightEvent.All[first.Event];
        if ((state.Fingers & happening.FingerMask) != 0)
            return Infinity;
        return happening.Plucks.Any(pluck => pluck.String == state.String) ? lattice.Weights["same-string"] : 0;
    }

    private int[] StepBack(int step, int[] next)
    {
        var layer = LayerOf(step);
        var prices = lattice.Prices(step);
        var shapes = lattice.ShapeIds[step].Length;
        var changed = steps[step];
        var result = new int[layer.States.Length * prices.WidthBefore];
        Span<int> row = stackalloc int[prices.Width];
        for (var r = 0; r < layer.States.Length; r++)
        {
            row.Fill(Infinity);
            foreach (var way in layer.Ways[r])
                EventInto(
                    row,
                    changed.Notes.AsSpan(way.Event * prices.Width),
                    next.AsSpan(way.Next * prices.Width),
                    way.Cost
                );
            foreach (ref readonly var half in changed.Halves)
            {
                foreach (var way in layer.Ways[r])
                {
                    if (way.Event == half.Event)
                        row[half.Shape] = Math.Min(
                            row[half.Shape],
                            half.Cost + way.Cost + next[(way.Next * prices.Width) + half.To]
                        );
                }
            }
            foreach (var lick in licks[step])
                row[lick.FirstShape] = Math.Min(row[lick.FirstShape], LickCost(lick, r).Whole);
            var into = result.AsSpan(r * prices.WidthBefore, prices.WidthBefore);
            into.Fill(Infinity);
            for (var l = 0; l < shapes; l++)
                MoveInto(into, prices.Moves.AsSpan(l * prices.WidthBefore), row[l]);
            if (layer.NextSlur[r] is var slurred and not RightHand.Never)
            {
                foreach (ref readonly var slur in changed.SlursOn(layer.States[r].String))
                    into[slur.From] = Math.Min(into[slur.From], slur.Cost + next[(slurred * prices.Width) + slur.To]);
            }
        }
        return result;
    }

    // Price of a lick from a state, alone and with the future after it.
    private (int Whole, int Own, int State) LickCost(LickEdge lick, int state)
    {
        if (lick.Walk(state) is not { } walked)
            return (Infinity, Infinity, 0);
        var own = lick.Cost + walked.Cost;
        var whole = own + after[lick.LastStep][(walked.State * lattice.Prices(lick.LastStep).Width) + lick.LastShape];
        return (Math.Min(Infinity, whole), own, walked.State);
    }

    // row = min(row, notes + after + price)
    private static void EventInto(Span<int> row, ReadOnlySpan<int> notes, ReadOnlySpan<int> after, int price)
    {
        var prices = new Vector<int>(price);
        for (var i = 0; i < row.Length; i += Vector<int>.Count)
        {
            var sum = new Vector<int>(notes[i..]) + new Vector<int>(after[i..]) + prices;
            Vector.Min(new Vector<int>(row[i..]), sum).CopyTo(row[i..]);
        }
    }

    // into = min(into, moves + price)
    private static void MoveInto(Span<int> into, ReadOnlySpan<int> moves, int price)
    {
        var prices = new Vector<int>(price);
        for (var i = 0; i < into.Length; i += Vector<int>.Count)
            Vector.Min(new Vector<int>(into[i..]), new Vector<int>(moves[i..]) + prices).CopyTo(into[i..]);
    }

    private Solution Forward()
    {
        var path = new PathStep[Grid.Steps.Length];
        var costs = new int[Grid.Steps.Length];
        var ends = new (int Shape, int State)[Grid.Bars.Length];
        var isPossible = true;
        var played = ImmutableArray.CreateBuilder<LickPlace>();
        for (var bar = 0; bar < Grid.Bars.Length; bar++)
        {
            var parent = Grid.Tree.Parent[bar];
            var (held, state) = parent < 0 ? (0, 0) : ends[parent];
            for (var step = Grid.FirstOf(bar); step < Grid.Bars[bar].End.Value; )
            {
                var best = StepForward(step, held, state);
                isPossible &= best.Cost < Infinity;
                (costs[step], held, state) = (best.Own, best.Shape, best.State);
                if (best.Lick is { } lick)
                {
                    played.Add(lick.Place);
                    lick.Place.Path.CopyTo(path, step);
                    step += lick.Place.Path.Length;
                }
                else
                {
                    path[step++] = best.Step;
                }
            }
            ends[bar] = (held, state);
        }
        return new(path, costs, played.ToImmutable(), isPossible);
    }

    private record struct Choice(int Cost, int Own, int Shape, int State, PathStep Step, LickEdge? Lick = null)
    {
        public void Offer(int own, int future, int shape, int state, PathStep step)
        {
            if (own + future < Cost)
                this = new(own + future, own, shape, state, step);
        }
    }

    // Finds again the way whose cost is the least future of the node.
    private Choice StepForward(int step, int held, int state)
    {
        var layer = LayerOf(step);
        var prices = lattice.Prices(step);
        var shapes = lattice.ShapeIds[step];
        var changed = steps[step];
        var next = after[step];
        var best = new Choice(Infinity, 0, 0, 0, default);
        for (var l = 0; l < shapes.Length; l++)
        {
            var move = prices.Moves[(l * prices.WidthBefore) + held];
            var shape = lattice.Shape(shapes[l]);
            foreach (var way in layer.Ways[state])
            {
                var own = move + way.Cost + changed.Notes[(way.Event * prices.Width) + l];
                best.Offer(own, next[(way.Next * prices.Width) + l], l, way.Next, new(shape, way.Event));
                foreach (ref readonly var half in changed.Halves)
                {
                    if (half.Shape == l && half.Event == way.Event)
                    {
                        var slurred = new PathStep(
                            shape,
                            way.Event,
                            0,
                            null,
                            lattice.Shape(shapes[half.To]),
                            half.Kind
                        );
                        best.Offer(
                            move + way.Cost + half.Cost,
                            next[(way.Next * prices.Width) + half.To],
                            half.To,
                            way.Next,
                            slurred
                        );
                    }
                }
            }
        }
        foreach (var lick in licks[step])
        {
            var (whole, own, end) = LickCost(lick, state);
            var move = prices.Moves[(lick.FirstShape * prices.WidthBefore) + held];
            if (whole < Infinity && whole + move < best.Cost)
                best = new(whole + move, own + move, lick.LastShape, end, default, lick);
        }
        if (layer.NextSlur[state] is var following and not RightHand.Never)
        {
            foreach (ref readonly var slur in changed.SlursOn(layer.States[state].String))
            {
                if (slur.From == held)
                {
                    var slurred = new PathStep(
                        lattice.Shape(shapes[slur.To]),
                        RightEvent.Silence,
                        slur.String,
                        slur.Kind
                    );
                    best.Offer(slur.Cost, next[(following * prices.Width) + slur.To], slur.To, following, slurred);
                }
            }
        }
        return best;
    }
}
