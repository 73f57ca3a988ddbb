using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Solving;

/// <summary>The prices of one step with locks and likenesses laid over them; shared where nothing is.</summary>
internal sealed class StepOverlay
{
    private readonly ShapePair pair;
    private readonly int[][] slurs;

    public StepOverlay(StepLattice lattice, Overlay overlay, int step)
    {
        var prices = lattice.Prices(step);
        pair = prices.Pair;
        Notes = prices.Notes;
        slurs = prices.Slurs;
        if (overlay.IsPlain(step))
            return;
        var shapes = lattice.Shapes[step];
        Notes = [.. Notes];
        for (var row = 0; row < Notes.Length / prices.Width; row++)
        {
            for (var l = 0; l < shapes.Length; l++)
                Change(overlay, step, new(shapes[l], row), ref Notes[(row * prices.Width) + l]);
        }
        slurs = [.. slurs.Select((costs, manner) => Changed(manner, costs, shapes, overlay, step))];
    }

    /// <summary>As <see cref="StepPrices.Notes"/>.</summary>
    public int[] Notes { get; }

    /// <summary>Slurs into the step on a string that rings, in one of the style's ways of playing.</summary>
    public SlurWays SlursOn(int manner, int onString) =>
        slurs.Length == 0
            ? default
            : new(pair.Slurs[pair.SlursOn(onString)], slurs[manner].AsSpan(pair.SlursOn(onString)));

    /// <summary>Slurs with their prices.</summary>
    public readonly ref struct SlurWays(ReadOnlySpan<ShapePair.Slur> ways, ReadOnlySpan<int> costs)
    {
        private readonly ReadOnlySpan<ShapePair.Slur> ways = ways;
        private readonly ReadOnlySpan<int> costs = costs;

        public int Count => ways.Length;

        /// <summary>Cost may be <see cref="MovePrice.Impossible"/>: something forbids it.</summary>
        public (ShapePair.Slur Way, int Cost) this[int index] => (ways[index], costs[index]);
    }

    private int[] Changed(int manner, int[] costs, HandShape[] shapes, Overlay overlay, int step)
    {
        var silent = RightEvent.Row(manner, RightEvent.Silence);
        int[] changed = [.. costs];
        for (var s = 1; s <= 4; s++)
        {
            var (start, count) = pair.SlursOn(s).GetOffsetAndLength(costs.Length);
            for (var i = start; i < start + count; i++)
                Change(overlay, step, new(shapes[pair.Slurs[i].To], silent, s, pair.Slurs[i].Kind), ref changed[i]);
        }
        return changed;
    }

    private static void Change(Overlay overlay, int step, PathStep done, ref int cost)
    {
        if (!overlay.Allows(step, done))
        {
            cost = MovePrice.Impossible;
            return;
        }
        var sum = new Sum();
        overlay.Price(ref sum, step, done);
        cost += sum.Total;
    }
}
