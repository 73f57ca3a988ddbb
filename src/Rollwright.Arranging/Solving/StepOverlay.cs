using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;

namespace Rollwright.Arranging.Solving;

/// <summary>The prices of one step with locks and the bonus for consistency laid over them; shared where nothing is.</summary>
internal sealed class StepOverlay
{
    private readonly StepPrices.SlurWay[][] slursByString;
    private readonly StepPrices.HalfWay[] halves;

    public StepOverlay(StepLattice lattice, Overlay overlay, int step)
    {
        var prices = lattice.Prices(step);
        Notes = prices.Notes;
        halves = prices.Halves;
        slursByString = prices.SlursByString;
        if (overlay.ModelAt(step) is { } model)
        {
            var bonus = lattice.Weights["consistency"];
            Notes = [.. Notes];
            for (var l = 0; l < lattice.ShapeIds[step].Length; l++)
            {
                if (model.SlurString == 0 && SameFrets(lattice.Shape(lattice.ShapeIds[step][l]), model))
                    Notes[(model.Event * prices.Width) + l] -= bonus;
            }
            if (model.SlurString != 0)
                slursByString =
                [
                    .. slursByString.Select(slurs =>
                        slurs.Select(slur => Matches(slur) ? slur with { Cost = slur.Cost - bonus } : slur).ToArray()
                    ),
                ];
            if (model.HalfShape is not null)
                halves = [.. halves.Select(half => MatchesHalf(half) ? half with { Cost = half.Cost - bonus } : half)];

            bool Matches(StepPrices.SlurWay slur) =>
                slur.String == model.SlurString
                && lattice.Shape(lattice.ShapeIds[step][slur.To]).FretOn(slur.String)
                    == model.Shape.FretOn(slur.String);
            bool MatchesHalf(StepPrices.HalfWay half) =>
                half.Event == model.Event && SameFrets(lattice.Shape(lattice.ShapeIds[step][half.Shape]), model);
        }
        if (overlay.LockAt(step) is { } kept)
        {
            slursByString =
            [
                [],
                [],
                [],
                [],
                [],
            ];
            halves = kept.HalfShape is null
                ? []
                :
                [
                    .. halves.Where(half =>
                        half.Event == kept.Event && lattice.Shape(lattice.ShapeIds[step][half.To]) == kept.HalfShape
                    ),
                ];
            var only = new int[Notes.Length];
            Array.Fill(only, MovePrice.Impossible);
            var at = (kept.Event * prices.Width) + lattice.IndexAt(step, kept.Shape);
            only[at] = Notes[at];
            Notes = only;
        }
    }

    /// <summary>As <see cref="StepPrices.Notes"/>.</summary>
    public int[] Notes { get; }

    public ReadOnlySpan<StepPrices.HalfWay> Halves => halves;

    public ReadOnlySpan<StepPrices.SlurWay> SlursOn(int onString) => slursByString[onString];

    private static bool SameFrets(Banjo.Shapes.HandShape shape, PathStep model)
    {
        foreach (var (_, on) in RightEvent.All[model.Event].Plucks)
        {
            if (shape.FretOn(on) != model.Shape.FretOn(on))
                return false;
        }
        return true;
    }
}
