using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// For every node the least cost of all that is not its future: the way from the start to it, and the other endings
/// beside it. With the future, it prices any single way through the lattice.
/// </summary>
internal sealed class Past
{
    private readonly Solver solver;
    private readonly int[][] before;
    private readonly List<(int Node, int Cost)>?[] landing;

    private Past(Solver solver)
    {
        this.solver = solver;
        before = new int[solver.Lattice.Grid.Steps.Length][];
        landing = new List<(int, int)>?[before.Length];
    }

    /// <summary>At [state * WidthBefore + shape held] before a step.</summary>
    public int[] Before(int step) => before[step];

    public static Past Of(Solver solver)
    {
        var past = new Past(solver);
        var grid = solver.Lattice.Grid;
        var ends = new int[grid.Bars.Length][];
        for (var bar = 0; bar < ends.Length; bar++)
        {
            var parent = grid.Tree.Parent[bar];
            var now = parent < 0 ? past.Start(bar) : Sum(ends[parent], solver.BesidesOf(bar));
            for (var step = grid.FirstOf(bar); step < grid.Bars[bar].End.Value; step++)
            {
                past.before[step] = now;
                now = past.Step(step, now);
            }
            ends[bar] = now;
        }
        return past;
    }

    /// <summary>The past with the left hand gone on into each shape of the step.</summary>
    public MovedPast Moved(int step)
    {
        var prices = solver.Lattice.Prices(step);
        var moved = Moved(step, prices, prices.Pair);
        return new(prices, moved, prices.Still is { } still ? Moved(step, prices, still) : moved);
    }

    private int[] Moved(int step, StepPrices prices, ShapePair pair)
    {
        var held = solver.Lattice.Before(step).Length;
        var now = before[step];
        var moved = GC.AllocateUninitializedArray<int>(solver.Lattice.LayerOf(step).States.Length * prices.Width);
        Array.Fill(moved, Solver.Infinity);
        for (var r = 0; r < moved.Length / prices.Width; r++)
        {
            var row = moved.AsSpan(r * prices.Width, prices.Width);
            for (var k = 0; k < held; k++)
            {
                var cost = now[(r * prices.WidthBefore) + k];
                if (cost < Solver.Barrier)
                    Vectors.MinOf(row, pair.Onto.AsSpan(k * prices.Width), cost);
            }
        }
        return moved;
    }

    /// <summary>Least cost of the past of a state with the way into a lick.</summary>
    public int Into(LickEdge lick, int step, int state)
    {
        var width = lick.Entry.Length;
        var row = before[step].AsSpan(state * width, width);
        var best = Solver.Infinity;
        for (var k = 0; k < width; k++)
            best = Math.Min(best, row[k] + lick.Entry[k]);
        return best;
    }

    // The tree may have several roots only where a bar is never played; each begins at rest.
    private int[] Start(int bar)
    {
        var step = solver.Lattice.Grid.FirstOf(bar);
        var prices = solver.Lattice.Prices(step);
        var start = new int[solver.Lattice.LayerOf(step).States.Length * prices.WidthBefore];
        Array.Fill(start, Solver.Infinity);
        start[0] = 0;
        return start;
    }

    private int[] Step(int step, int[] now)
    {
        var lattice = solver.Lattice;
        var layer = lattice.LayerOf(step);
        var prices = lattice.Prices(step);
        var changed = solver.OverlayAt(step);
        var (width, widthBefore) = (prices.Width, prices.WidthBefore);
        var next = GC.AllocateUninitializedArray<int>(solver.AfterAt(step).Length);
        Array.Fill(next, Solver.Infinity);
        var moved = Moved(step);
        for (var r = 0; r < layer.States.Length; r++)
        {
            foreach (var way in layer.Ways[r])
                Vectors.MinOfSum(
                    next.AsSpan(way.Next * width, width),
                    moved.Of(r, way.Row),
                    changed.Notes.AsSpan(way.Row * width),
                    way.Cost
                );
            if (layer.Slurs[r] is { IsPossible: true } slurred)
            {
                var slurs = changed.SlursOn(layer.States[r].Manner, layer.States[r].String);
                for (var i = 0; i < slurs.Count; i++)
                {
                    var (slur, price) = slurs[i];
                    ref var cost = ref next[(slurred.Next * width) + slur.To];
                    cost = Math.Min(cost, now[(r * widthBefore) + slur.From] + price + slurred.Cost);
                }
            }
        }
        foreach (var lick in solver.LicksAt(step))
            Land(lick, step, layer.States.Length);
        foreach (var (node, cost) in landing[step] ?? [])
            next[node] = Math.Min(next[node], cost);
        return next;
    }

    // A lick's end is a node after its last step, which is yet to come.
    private void Land(LickEdge lick, int step, int states)
    {
        var last = lick.Place.LastStep;
        var width = solver.Lattice.Prices(last).Width;
        for (var r = 0; r < states; r++)
        {
            if (lick.Walk(r) is not { } walked)
                continue;
            var cost = Into(lick, step, r) + lick.Cost + walked.Cost;
            if (cost < Solver.Barrier)
                (landing[last] ??= []).Add(((walked.State * width) + lick.LastShape, cost));
        }
    }

    private static int[] Sum(int[] first, int[] second)
    {
        var sum = new int[first.Length];
        for (var i = 0; i < sum.Length; i++)
            sum[i] = Math.Min(Solver.Infinity, first[i] + second[i]);
        return sum;
    }
}
