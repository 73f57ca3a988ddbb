using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;

namespace Rollwright.Arranging.Solving;

/// <summary>The prices of one step with locks and likenesses laid over them; shared where nothing is.</summary>
internal sealed class StepOverlay
{
    private readonly StepPrices.SlurWay[][] slurs;

    public StepOverlay(StepLattice lattice, Overlay overlay, int step)
    {
        var prices = lattice.Prices(step);
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
        slurs =
        [
            .. slurs.Select(
                (ways, i) => Changed(ways, RightEvent.Row(i / 5, RightEvent.Silence), shapes, overlay, step)
            ),
        ];
    }

    /// <summary>As <see cref="StepPrices.Notes"/>.</summary>
    public int[] Notes { get; }

    public ReadOnlySpan<StepPrices.SlurWay> SlursOn(int manner, int onString) => slurs[(manner * 5) + onString];

    private static StepPrices.SlurWay[] Changed(
        StepPrices.SlurWay[] ways,
        int row,
        Banjo.Shapes.HandShape[] shapes,
        Overlay overlay,
        int step
    )
    {
        var kept = new List<StepPrices.SlurWay>(ways.Length);
        foreach (var way in ways)
        {
            var cost = way.Cost;
            Change(overlay, step, new(shapes[way.To], row, way.String, way.Kind), ref cost);
            if (cost < Solver.Barrier)
                kept.Add(way with { Cost = cost });
        }
        return [.. kept];
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
