using Rollwright.Arranging.Costs;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The prices of one step, worked out once: every event under every shape, every way of the left hand into it, slurs
/// into it. Equal steps share theirs.
/// </summary>
public sealed class StepPrices
{
    /// <summary>A slur from a shape held before (index k) into a shape of the step (index l).</summary>
    public readonly record struct SlurWay(int From, int To, int String, SlurKind Kind, int Cost);

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

    /// <summary>Slurs into the step at [way of playing * 5 + string that rings].</summary>
    public SlurWay[][] Slurs { get; private init; } = [];

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
            Slurs =
                lattice.Bounds.Slurs && !lattice.IsSeamTarget(step)
                    ? SlursOf(lattice, step, pair, tables)
                    : [.. Enumerable.Repeat(Array.Empty<SlurWay>(), 5 * tables.Length)],
        };
    }

    private static int[] NotesOf(Banjo.Shapes.HandShape[] shapes, NoteTable[] tables)
    {
        var width = ShapePair.Padded(shapes.Length);
        var prices = new int[tables.Length * RightEvent.All.Length * width];
        Array.Fill(prices, MovePrice.Impossible);
        for (var manner = 0; manner < tables.Length; manner++)
        {
            for (var e = 0; e < RightEvent.All.Length; e++)
            {
                var row = RightEvent.Row(manner, e) * width;
                for (var l = 0; l < shapes.Length; l++)
                    prices[row + l] = tables[manner].Of(RightEvent.All[e], shapes[l]);
            }
        }
        return prices;
    }

    private static SlurWay[][] SlursOf(StepLattice lattice, int step, ShapePair pair, NoteTable[] tables)
    {
        var (before, shapes) = (lattice.Before(step), lattice.Shapes[step]);
        var place = lattice.Grid.Steps[step];
        var ways = new List<SlurWay>[5 * tables.Length];
        for (var i = 0; i < ways.Length; i++)
            ways[i] = [];
        for (var manner = 0; manner < tables.Length; manner++)
        {
            foreach (ref readonly var slur in pair.Slurs.AsSpan())
            {
                var (from, to) = (before[slur.From].FretOn(slur.String), shapes[slur.To].FretOn(slur.String));
                var sum = new Sum();
                lattice.Style.Manners[manner].Slurs.Of(ref sum, slur.Kind, slur.String, from, to, place.SlurStrength);
                var cost = sum.Total + tables[manner].OfSlurred(slur.String, to);
                ways[(manner * 5) + slur.String].Add(new(slur.From, slur.To, slur.String, slur.Kind, cost));
            }
        }
        return [.. ways.Select(list => list.ToArray())];
    }
}
