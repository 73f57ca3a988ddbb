using System.Numerics;
using System.Runtime.InteropServices;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// The exact shortest path through the lattice by dynamic programming from the end: for every node the least cost of all
/// that is still to come. Bars with two endings are nodes with two futures, whose costs add. Costs are whole numbers, so
/// sums are exact and equal on every machine; equal costs are decided by the fixed order of shapes and events.
/// </summary>
public sealed class Solver
{
    private const int Infinity = MovePrice.Impossible;

    private readonly StepLattice lattice;
    private readonly Overlay overlay;
    private readonly int bonus;
    private readonly StepTable[] tables;

    /// <summary>Least cost of the future before each step: shape held × right-hand state.</summary>
    private readonly int[][] future;

    private Solver(StepLattice lattice, Overlay overlay)
    {
        this.lattice = lattice;
        this.overlay = overlay;
        bonus = lattice.Weights["consistency"];
        future = new int[lattice.Grid.Steps.Length][];
        tables = new StepTable[lattice.Grid.Steps.Length];
    }

    /// <summary>The best path: one entry for each step of the grid. Its cost leaves out the bonus of the overlay.</summary>
    public static Solution Solve(StepLattice lattice, Overlay overlay)
    {
        var solver = new Solver(lattice, overlay);
        solver.Backward();
        return solver.Forward();
    }

    private StepGrid Grid => lattice.Grid;

    private void Backward()
    {
        for (var bar = Grid.Bars.Length - 1; bar >= 0; bar--)
        {
            var after = Terminal(bar);
            var last = Grid.Bars[bar].End.Value - 1;
            for (var step = last; step >= Grid.FirstOf(bar); step--)
            {
                tables[step] = new StepTable(lattice, overlay, step);
                after = future[step] = StepBack(step, after);
            }
        }
    }

    // What follows the end of a bar: the sum over the bars after it, and the jumps back to bars that stand already.
    private int[] Terminal(int bar)
    {
        var shapes = lattice.ShapeIds[Grid.Bars[bar].End.Value - 1];
        var states = lattice.RightHands[bar].Last;
        var sum = new int[shapes.Length * states.Length];
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
            for (var l = 0; l < shapes.Length; l++)
            {
                var move = lattice.Move(shapes[l], lattice.IdOf(first.Shape));
                for (var r = 0; r < states.Length; r++)
                {
                    var way = JoinCost(states[r], first);
                    ref var cost = ref sum[(l * states.Length) + r];
                    cost = Math.Min(Infinity, cost + move + way);
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

    private int[] StepBack(int step, int[] after)
    {
        var bar = Grid.Steps[step].Bar;
        var layer = lattice.RightHands[bar].At(step - Grid.FirstOf(bar));
        var shapes = lattice.ShapeIds[step];
        var before = lattice.Before(step);
        var table = tables[step];
        var nextStates = lattice.RightHands[bar].At(step - Grid.FirstOf(bar) + 1).States.Length;
        var stateCount = layer.States.Length;
        var now = new int[shapes.Length * stateCount];
        for (var l = 0; l < shapes.Length; l++)
        {
            for (var r = 0; r < stateCount; r++)
                now[(l * stateCount) + r] = BestEvent(table, layer, l, r, after, nextStates);
        }
        var result = new int[before.Length * stateCount];
        Array.Fill(result, Infinity);
        for (var k = 0; k < before.Length; k++)
        {
            var row = result.AsSpan(k * stateCount, stateCount);
            for (var l = 0; l < shapes.Length; l++)
            {
                var move = lattice.Move(before[k], shapes[l]);
                if (move < Infinity)
                    MinInto(row, now.AsSpan(l * stateCount, stateCount), move);
                if (table.MayBeSlurred)
                    SlurInto(row, table, layer, before[k], l, after, nextStates);
            }
        }
        return result;
    }

    private static int BestEvent(StepTable table, RightHand.Layer layer, int l, int r, int[] after, int nextStates)
    {
        var best = Infinity;
        var at = r * table.Events;
        for (var e = 0; e < table.Events; e++)
        {
            var next = layer.Next[at + e];
            var note = table.Cost[(l * table.Events) + e];
            if (next < 0 || note >= Infinity)
                continue;
            var cost = layer.Cost[at + e] + note;
            best = Math.Min(best, cost + table.HalfMissed + after[(l * nextStates) + next]);
            foreach (var half in table.Halves(l, e))
                best = Math.Min(best, cost + half.Cost + after[(half.Shape * nextStates) + next]);
        }
        return best;
    }

    // row = min(row, values + price), lane by lane.
    private static void MinInto(Span<int> row, ReadOnlySpan<int> values, int price)
    {
        var lanes = Vector<int>.Count;
        var prices = new Vector<int>(price);
        var i = 0;
        for (; i <= row.Length - lanes; i += lanes)
        {
            var sum = new Vector<int>(values[i..]) + prices;
            Vector.Min(new Vector<int>(row[i..]), sum).CopyTo(row[i..]);
        }
        for (; i < row.Length; i++)
            row[i] = Math.Min(row[i], values[i] + price);
    }

    private void SlurInto(Span<int> row, StepTable table, RightHand.Layer layer, int from, int l, int[] after, int nextStates)
    {
        foreach (ref readonly var slur in CollectionsMarshal.AsSpan(table.SlursTo(l, from)))
        {
            for (var r = 0; r < row.Length; r++)
            {
                if (layer.States[r].String != slur.String || layer.NextSlur[r] < 0)
                    continue;
                var cost = slur.Cost + table.HalfMissed + after[(l * nextStates) + layer.NextSlur[r]];
                row[r] = Math.Min(row[r], cost);
            }
        }
    }

    private Solution Forward()
    {
        var path = new PathStep[Grid.Steps.Length];
        var costs = new int[Grid.Steps.Length];
        var ends = new (int Shape, int State)[Grid.Bars.Length];
        var isPossible = true;
        for (var bar = 0; bar < Grid.Bars.Length; bar++)
        {
            var parent = Grid.Tree.Parent[bar];
            var (held, state) = parent < 0 ? (0, 0) : ends[parent];
            for (var step = Grid.FirstOf(bar); step < Grid.Bars[bar].End.Value; step++)
                (held, state) = StepForward(step, held, state, path, costs, ref isPossible);
            ends[bar] = (held, state);
        }
        return new(path, costs, isPossible);
    }

    // Finds again the way whose cost is the least future of the node.
    private (int Held, int State) StepForward(int step, int held, int state, PathStep[] path, int[] costs, ref bool isPossible)
    {
        var bar = Grid.Steps[step].Bar;
        var position = step - Grid.FirstOf(bar);
        var layer = lattice.RightHands[bar].At(position);
        var nextStates = lattice.RightHands[bar].At(position + 1).States.Length;
        var after = step + 1 < Grid.Bars[bar].End.Value ? future[step + 1] : Terminal(bar);
        var shapes = lattice.ShapeIds[step];
        var from = lattice.Before(step)[held];
        var table = tables[step];
        var best = (Cost: Infinity, Shape: 0, State: 0, Step: default(PathStep), Own: 0);
        void Offer(int cost, int own, int shape, int next, PathStep what)
        {
            if (cost < best.Cost)
                best = (cost, shape, next, what, own);
        }

        for (var l = 0; l < shapes.Length; l++)
        {
            var move = lattice.Move(from, shapes[l]);
            for (var e = 0; e < table.Events && move < Infinity; e++)
            {
                var next = layer.Next[(state * table.Events) + e];
                var note = table.Cost[(l * table.Events) + e];
                if (next < 0 || note >= Infinity)
                    continue;
                var own = move + note + layer.Cost[(state * table.Events) + e];
                Offer(own + table.HalfMissed + after[(l * nextStates) + next], own + table.HalfMissed, l, next, new(lattice.Shape(shapes[l]), e));
                foreach (var half in table.Halves(l, e))
                {
                    var to = lattice.Shape(shapes[half.Shape]);
                    Offer(own + half.Cost + after[(half.Shape * nextStates) + next], own + half.Cost, half.Shape, next, new(lattice.Shape(shapes[l]), e, 0, null, to, half.Kind));
                }
            }
            if (!table.MayBeSlurred)
                continue;
            foreach (var slur in table.SlursTo(l, from))
            {
                if (layer.States[state].String != slur.String || layer.NextSlur[state] < 0)
                    continue;
                var next = layer.NextSlur[state];
                var own = slur.Cost + table.HalfMissed;
                Offer(own + after[(l * nextStates) + next], own, l, next, new(lattice.Shape(shapes[l]), RightEvent.Silence, slur.String, slur.Kind));
            }
        }
        isPossible &= best.Cost < Infinity;
        path[step] = best.Step;
        costs[step] = best.Own;
        return (best.Shape, best.State);
    }
}
