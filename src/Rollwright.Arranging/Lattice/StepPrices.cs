using Rollwright.Arranging.Costs;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The prices of one step, worked out once: every event under every shape, every way of the left hand into it, slurs
/// into it. Equal steps share theirs.
/// </summary>
public sealed class StepPrices
{
    private StepPrices(int width, int widthBefore, ShapePair pair, ShapePair? still, NoteTable[] tables)
    {
        Width = width;
        WidthBefore = widthBefore;
        Pair = pair;
        Still = still;
        Tables = tables;
    }

    /// <summary>Shapes of the step, padded.</summary>
    public int Width { get; }

    /// <summary>Shapes held before the step, padded.</summary>
    public int WidthBefore { get; }

    public ShapePair Pair { get; }

    /// <summary>
    /// The way into the step where nothing sounds at it, if the steps on both sides lie within a step of the metre: two
    /// moves would not fit in there, so the hand keeps its shape. Null elsewhere.
    /// </summary>
    public ShapePair? Still { get; }

    /// <summary>Prices of single notes, for each way of playing.</summary>
    public NoteTable[] Tables { get; }

    /// <summary>Price of the notes of a row (way of playing and event) under shape l at [row * Width + l].</summary>
    public int[] Notes { get; private init; } = [];

    /// <summary>For each way of playing the prices of <see cref="ShapePair.Slurs"/>; none where no slur leads into the step.</summary>
    public int[][] Slurs { get; private init; } = [];

    /// <summary>Whether a row (way of playing and event) leaves the hand no time for a move.</summary>
    public bool IsStill(int row) => Still is not null && RightEvent.EventOf(row) == RightEvent.Silence;

    public static StepPrices Of(StepLattice lattice, int step)
    {
        var shapes = lattice.Shapes[step];
        var before = lattice.Before(step);
        var place = lattice.Grid.Steps[step];
        var after = lattice.After(step);
        var next = after < 0 ? null : lattice.Grid.Steps[after];
        var tables = lattice
            .Notes.Select(notes => new NoteTable(place, next, notes, lattice.Setting, lattice.Bounds.HighestFret))
            .ToArray();
        var pair = lattice.Pair(before, shapes);
        var still = lattice.Holds(step) ? lattice.StillPair(before, shapes) : null;
        return new(ShapePair.Padded(shapes.Length), ShapePair.Padded(before.Length), pair, still, tables)
        {
            Notes = NotesOf(shapes, tables),
            Slurs = lattice.Bounds.Slurs && !lattice.IsSeamTarget(step) ? SlursOf(lattice, step, pair, tables) : [],
        };
    }

    private static int[] NotesOf(HandShape[] shapes, NoteTable[] tables)
    {
        var width = ShapePair.Padded(shapes.Length);
        var size = RightEvent.All.Length * width;
        var prices = GC.AllocateUninitializedArray<int>(tables.Length * size);
        for (var manner = 0; manner < tables.Length; manner++)
            tables[manner].Lay(prices.AsSpan(manner * size, size), shapes, width);
        return prices;
    }

    private static int[][] SlursOf(StepLattice lattice, int step, ShapePair pair, NoteTable[] tables)
    {
        var (before, shapes) = (lattice.Before(step), lattice.Shapes[step]);
        var strength = lattice.Grid.Steps[step].SlurStrength;
        var prices = new int[tables.Length][];
        for (var manner = 0; manner < tables.Length; manner++)
        {
            var slurs = lattice.Style.Manners[manner].Slurs;
            var costs = prices[manner] = GC.AllocateUninitializedArray<int>(pair.Slurs.Length);
            for (var s = 1; s <= 4; s++)
            {
                var (start, count) = pair.SlursOn(s).GetOffsetAndLength(costs.Length);
                for (var i = start; i < start + count; i++)
                {
                    ref readonly var slur = ref pair.Slurs[i];
                    var (from, to) = (before[slur.From].FretOn(s), shapes[slur.To].FretOn(s));
                    var sum = new Sum();
                    slurs.Of(ref sum, slur.Kind, s, from, to, strength);
                    costs[i] = sum.Total + tables[manner].OfSlurred(s, to);
                }
            }
        }
        return prices;
    }
}
