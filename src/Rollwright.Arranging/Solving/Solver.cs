using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Wishes;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// The exact shortest path through the lattice by dynamic programming: for every node the least cost of all that is still
/// to come, and, where it is asked for, of all that is elsewhere. Bars with two endings are nodes with two futures, whose
/// costs add. Costs are whole numbers, so sums are exact and equal on every machine; equal costs are decided by the fixed
/// order of shapes and events.
/// </summary>
/// <remarks>
/// Nodes of a step are stored state by state, the shapes of a state side by side, so that the inner loops (what the right
/// hand does, where the left hand goes) run over whole vectors of shapes. An instance serves one thread.
/// </remarks>
public sealed class Solver
{
    internal const int Infinity = MovePrice.Impossible;

    /// <summary>Costs from here on contain something impossible, whatever was taken off them.</summary>
    internal const int Barrier = Infinity / 2;

    private readonly Overlay overlay;
    private readonly StepOverlay[] steps;

    /// <summary>Least cost of the future before each step, at [state * WidthBefore + shape held].</summary>
    private readonly int[][] future;

    /// <summary>Least cost of the future after each step, at [state * Width + shape].</summary>
    private readonly int[][] after;

    private readonly LickEdge[][] licks;
    private readonly LickEdge.EntryPrices entries;
    private readonly Joins joins;
    private Past? past;

    private Solver(StepLattice lattice, Overlay overlay)
    {
        Lattice = lattice;
        this.overlay = overlay;
        var count = lattice.Grid.Steps.Length;
        future = new int[count][];
        after = new int[count][];
        licks = new LickEdge[count][];
        steps = new StepOverlay[count];
        entries = new(lattice);
        joins = new(lattice, overlay);
    }

    private Solver(Solver before, StepLattice lattice, Overlay overlay)
    {
        Lattice = lattice;
        this.overlay = overlay;
        future = [.. before.future];
        after = [.. before.after];
        licks = [.. before.licks];
        steps = [.. before.steps];
        entries = before.entries;
        joins = new(lattice, overlay);
    }

    public StepLattice Lattice { get; }

    /// <summary>What was laid over the lattice; not to be changed.</summary>
    public Overlay Overlay => overlay;

    /// <summary>The best path.</summary>
    public Solution Best { get; private set; } = null!;

    private StepGrid Grid => Lattice.Grid;

    /// <summary>The best path: one entry for each step of the grid.</summary>
    public static Solution Solve(StepLattice lattice, Overlay overlay) => Open(lattice, overlay).Best;

    /// <summary>Solves, and keeps the costs for what is asked next.</summary>
    public static Solver Open(StepLattice lattice, Overlay overlay)
    {
        var solver = new Solver(lattice, overlay);
        for (var bar = solver.Grid.Bars.Length - 1; bar >= 0; bar--)
            solver.BarBack(bar, true);
        solver.Best = solver.Forward();
        return solver;
    }

    /// <summary>
    /// Solves again where only some steps have other locks or likenesses: what comes after them is known already, and
    /// what comes before is solved only as far as the change is felt.
    /// </summary>
    /// <param name="changed">The overlay, different from this one's at these steps only.</param>
    /// <param name="first">The first step that differs.</param>
    /// <param name="last">The last step that differs.</param>
    public Solver Again(Overlay changed, int first, int last)
    {
        var solver = new Solver(this, Lattice, changed);
        var (from, to) = (Grid.Steps[last].Bar, Grid.Steps[first].Bar);
        // By how much all costs of a bar are raised alike, so that its choices stay; null where they are not.
        var raised = new int?[Grid.Bars.Length];
        Array.Fill(raised, 0);
        for (var bar = from; bar >= 0; bar--)
        {
            var isChanged = bar >= to;
            var ahead = Grid.Tree.Children[bar].Aggregate((int?)0, (sum, child) => sum + raised[child]);
            if (!isChanged && ahead is { } all)
            {
                solver.RaiseBar(bar, all);
                raised[bar] = all;
                continue;
            }
            var before = future[Grid.FirstOf(bar)];
            solver.BarBack(bar, isChanged);
            raised[bar] = RaisedBy(before, solver.future[Grid.FirstOf(bar)]);
        }
        solver.Best = solver.Forward();
        return solver;
    }

    /// <summary>
    /// The same answer with other licks offered: what is played only by choice changes nothing until it is chosen.
    /// </summary>
    internal Solver Offering(StepLattice lattice) => new(this, lattice, overlay) { Best = Best, past = past };

    private static int? RaisedBy(int[] before, int[] now)
    {
        int? raised = null;
        for (var i = 0; i < now.Length; i++)
        {
            if (now[i] >= Barrier && before[i] >= Barrier)
                continue;
            if (now[i] >= Barrier || before[i] >= Barrier)
                return null;
            raised ??= now[i] - before[i];
            if (now[i] - before[i] != raised)
                return null;
        }
        return raised;
    }

    private void RaiseBar(int bar, int by)
    {
        if (by == 0)
            return;
        for (var step = Grid.Bars[bar].End.Value - 1; step >= Grid.FirstOf(bar); step--)
        {
            after[step] = step + 1 < Grid.Bars[bar].End.Value ? future[step + 1] : Raised(after[step], by);
            future[step] = Raised(future[step], by);
        }
    }

    private static int[] Raised(int[] costs, int by)
    {
        var raised = new int[costs.Length];
        for (var i = 0; i < costs.Length; i++)
            raised[i] = costs[i] >= Barrier ? Infinity : costs[i] + by;
        return raised;
    }

    private void BarBack(int bar, bool isChanged)
    {
        var next = Terminal(bar);
        for (var step = Grid.Bars[bar].End.Value - 1; step >= Grid.FirstOf(bar); step--)
        {
            if (isChanged)
            {
                steps[step] = new StepOverlay(Lattice, overlay, step);
                licks[step] =
                [
                    .. Lattice
                        .Licks[step]
                        .Where(place => !place.IsByChoice || overlay.Chooses(place))
                        .Select(place => LickEdge.Of(Lattice, place, overlay, entries))
                        .OfType<LickEdge>(),
                ];
            }
            after[step] = next;
            next = future[step] = StepBack(step, next);
        }
    }

    // What follows the end of a bar: the sum over the bars after it, and the jumps back to bars that stand already.
    private int[] Terminal(int bar)
    {
        var sum = joins.At(bar);
        foreach (var child in Grid.Tree.Children[bar])
            Add(sum, future[Grid.FirstOf(child)]);
        return sum;
    }

    private static void Add(int[] sum, int[] more)
    {
        for (var i = 0; i < sum.Length; i++)
            sum[i] = Math.Min(Infinity, sum[i] + more[i]);
    }

    private int[] StepBack(int step, int[] next)
    {
        var layer = Lattice.LayerOf(step);
        var prices = Lattice.Prices(step);
        var shapes = Lattice.Shapes[step].Length;
        var changed = steps[step];
        var held = Lattice.Before(step).Length;
        var (width, widthBefore) = (prices.Width, prices.WidthBefore);
        var result = GC.AllocateUninitializedArray<int>(layer.States.Length * widthBefore);
        Span<int> row = stackalloc int[width];
        Span<int> stillRow = stackalloc int[prices.Still is null ? 0 : width];
        for (var r = 0; r < layer.States.Length; r++)
        {
            row.Fill(Infinity);
            stillRow.Fill(Infinity);
            foreach (var way in layer.Ways[r])
            {
                var to = prices.IsStill(way.Row) ? stillRow : row;
                Vectors.MinOfSum(to, changed.Notes.AsSpan(way.Row * width), next.AsSpan(way.Next * width), way.Cost);
            }
            var into = result.AsSpan(r * widthBefore, widthBefore);
            into.Fill(Infinity);
            // The first shape is the open hand, and from any shape the way to it is free: what costs no less is never better.
            into[..held].Fill(Math.Min(Infinity, row[0]));
            MinOfWays(into, prices.Pair, row[..shapes], Math.Min(Barrier, row[0]));
            if (prices.Still is { } still)
                MinOfWays(into, still, stillRow[..shapes], Barrier);
            foreach (var lick in licks[step])
            {
                if (LickCost(lick, r).Whole is var whole and < Barrier)
                    Vectors.MinOf(into, lick.Entry, whole);
            }
            if (layer.Slurs[r] is { IsPossible: true } slurred)
            {
                var slurs = changed.SlursOn(layer.States[r].Manner, layer.States[r].String);
                for (var i = 0; i < slurs.Count; i++)
                {
                    var (slur, cost) = slurs[i];
                    into[slur.From] = Math.Min(
                        into[slur.From],
                        cost + slurred.Cost + next[(slurred.Next * width) + slur.To]
                    );
                }
            }
        }
        return result;
    }

    private static void MinOfWays(Span<int> into, ShapePair pair, ReadOnlySpan<int> row, int bound)
    {
        for (var l = 0; l < row.Length; l++)
        {
            if (row[l] < bound)
                Vectors.MinOf(into, pair.Into.AsSpan(l * into.Length), row[l]);
        }
    }

    // Price of a lick from a state, alone and with the future after it.
    private (int Whole, int Own, int State) LickCost(LickEdge lick, int state)
    {
        if (lick.Walk(state) is not { } walked)
            return (Infinity, Infinity, 0);
        var own = lick.Cost + walked.Cost;
        var last = lick.Place.LastStep;
        var whole = own + after[last][(walked.State * Lattice.Prices(last).Width) + lick.LastShape];
        return (Math.Min(Infinity, whole), own, walked.State);
    }

    private Solution Forward()
    {
        var path = new PathStep[Grid.Steps.Length];
        var costs = new int[Grid.Steps.Length];
        var nodes = new (int Shape, int State)[Grid.Steps.Length];
        var ends = new (int Shape, int State)[Grid.Bars.Length];
        var joined = new Sum();
        var isPossible = true;
        var played = ImmutableArray.CreateBuilder<LickPlace>();
        for (var bar = 0; bar < Grid.Bars.Length; bar++)
        {
            var parent = Grid.Tree.Parent[bar];
            var (held, state) = parent < 0 ? (0, 0) : ends[parent];
            for (var step = Grid.FirstOf(bar); step < Grid.Bars[bar].End.Value; )
            {
                nodes[step] = (held, state);
                var best = StepForward(step, held, state);
                isPossible &= best.Cost < Barrier;
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
            joins.Of(ref joined, bar, held, state);
        }
        return new(path, costs, nodes, ends, joined.Total, played.ToImmutable(), isPossible);
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
        var layer = Lattice.LayerOf(step);
        var prices = Lattice.Prices(step);
        var shapes = Lattice.Shapes[step];
        var changed = steps[step];
        var next = after[step];
        var width = prices.Width;
        var best = new Choice(Infinity, 0, 0, 0, default);
        for (var l = 0; l < shapes.Length; l++)
        {
            var at = (l * prices.WidthBefore) + held;
            var move = prices.Pair.Into[at];
            // A hand that keeps still has a way where any other has one.
            if (move >= Barrier)
                continue;
            foreach (var way in layer.Ways[state])
            {
                var own =
                    (prices.IsStill(way.Row) ? prices.Still!.Into[at] : move)
                    + way.Cost
                    + changed.Notes[(way.Row * width) + l];
                best.Offer(own, next[(way.Next * width) + l], l, way.Next, new(shapes[l], way.Row));
            }
        }
        foreach (var lick in licks[step])
        {
            var (whole, own, end) = LickCost(lick, state);
            var move = lick.Entry[held];
            if (whole < Barrier && whole + move < best.Cost)
                best = new(whole + move, own + move, lick.LastShape, end, default, lick);
        }
        if (layer.Slurs[state] is { IsPossible: true } following)
        {
            var (manner, onString) = (layer.States[state].Manner, layer.States[state].String);
            var silent = RightEvent.Row(manner, RightEvent.Silence);
            var slurs = changed.SlursOn(manner, onString);
            for (var i = 0; i < slurs.Count; i++)
            {
                var (slur, cost) = slurs[i];
                if (slur.From != held)
                    continue;
                var slurred = new PathStep(shapes[slur.To], silent, onString, slur.Kind);
                best.Offer(
                    cost + following.Cost,
                    next[(following.Next * width) + slur.To],
                    slur.To,
                    following.Next,
                    slurred
                );
            }
        }
        return best;
    }

    /// <summary>Costs of all that is not the future, worked out when first asked for.</summary>
    internal Past Past => past ??= Past.Of(this);

    /// <summary>Where play jumps to bars that stand already.</summary>
    internal Joins Joins => joins;

    internal int[] FutureAt(int step) => future[step];

    internal int[] AfterAt(int step) => after[step];

    internal StepOverlay OverlayAt(int step) => steps[step];

    internal LickEdge[] LicksAt(int step) => licks[step];

    /// <summary>Those that are offered from a step on, and were not put in.</summary>
    internal IEnumerable<LickEdge> OfferedAt(int step) =>
        Lattice
            .Licks[step]
            .Where(place => place.IsByChoice && !overlay.Chooses(place))
            .Select(EdgeOf)
            .OfType<LickEdge>();

    internal LickEdge? EdgeOf(LickPlace place) => LickEdge.Of(Lattice, place, overlay, entries);

    // The outside of a bar that follows another: what led to it, and what its siblings cost.
    internal int[] BesidesOf(int bar)
    {
        var parent = Grid.Tree.Parent[bar];
        var sum = joins.At(parent);
        foreach (var child in Grid.Tree.Children[parent].Where(child => child != bar))
            Add(sum, future[Grid.FirstOf(child)]);
        return sum;
    }
}
