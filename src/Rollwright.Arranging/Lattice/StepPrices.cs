using System.Numerics;
using Rollwright.Arranging.Costs;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The prices of one step, worked out once: every event under every shape, every way of the left hand into it, slurs
/// into it and within it. Rows run over shapes and are padded to whole vectors with <see cref="MovePrice.Impossible"/>.
/// </summary>
public sealed class StepPrices
{
    /// <summary>A slur from a shape held before (index k) into a shape of the step (index l).</summary>
    public readonly record struct SlurWay(int From, int To, int String, SlurKind Kind, int Cost);

    /// <summary>After an event under shape l a slur half a step later to shape m, which the tune asks for.</summary>
    public readonly record struct HalfWay(int Shape, int Event, int To, SlurKind Kind, int Cost);

    private StepPrices(int width, int widthBefore)
    {
        Width = width;
        WidthBefore = widthBefore;
    }

    /// <summary>Shapes of the step, padded.</summary>
    public int Width { get; }

    /// <summary>Shapes held before the step, padded.</summary>
    public int WidthBefore { get; }

    /// <summary>Price of the notes of event e under shape l at [e * Width + l], nothing half a step later included.</summary>
    public int[] Notes { get; private init; } = [];

    /// <summary>Price of the left hand's way from shape k before to shape l at [l * WidthBefore + k].</summary>
    public int[] Moves { get; private init; } = [];

    /// <summary>Slurs into the step, by the string that rings, 1 to 4.</summary>
    public SlurWay[][] SlursByString { get; private init; } =
    [
        [],
        [],
        [],
        [],
        [],
    ];

    public HalfWay[] Halves { get; private init; } = [];

    public static int Padded(int count) => (count + Vector<int>.Count - 1) / Vector<int>.Count * Vector<int>.Count;

    public static StepPrices Of(StepLattice lattice, int step)
    {
        var shapes = lattice.ShapeIds[step];
        var before = lattice.Before(step);
        var notes = new NoteTable(lattice, step);
        return new(Padded(shapes.Length), Padded(before.Length))
        {
            Notes = NotesOf(lattice, shapes, notes),
            Moves = MovesOf(lattice, shapes, before),
            SlursByString = ByString(
                lattice.Bounds.Slurs && !lattice.IsSeamTarget(step) ? SlursOf(lattice, step, shapes, before, notes) : []
            ),
            Halves =
                lattice.Bounds.Slurs && lattice.Grid.Steps[step].HalfOnset is { } key
                    ? HalvesOf(lattice, shapes, notes, key)
                    : [],
        };
    }

    private static int[] NotesOf(StepLattice lattice, ushort[] shapes, NoteTable notes)
    {
        var width = Padded(shapes.Length);
        var prices = new int[RightEvent.All.Length * width];
        Array.Fill(prices, MovePrice.Impossible);
        for (var e = 0; e < RightEvent.All.Length; e++)
        {
            for (var l = 0; l < shapes.Length; l++)
            {
                var shape = lattice.Shape(shapes[l]);
                var (sum, missing) = (notes.HalfMissed, notes.Missed);
                foreach (var (finger, on) in RightEvent.All[e].Plucks)
                {
                    var fret = shape.FretOn(on);
                    sum += notes.Price(on, fret) + (notes.IsMelody(on, fret) ? lattice.Notes.Finger(finger) : 0);
                    missing = Math.Min(missing, notes.Missing(on, fret));
                }
                prices[(e * width) + l] = sum + missing;
            }
        }
        return prices;
    }

    private static int[] MovesOf(StepLattice lattice, ushort[] shapes, ushort[] before)
    {
        var width = Padded(before.Length);
        var prices = new int[shapes.Length * width];
        Array.Fill(prices, MovePrice.Impossible);
        for (var l = 0; l < shapes.Length; l++)
        {
            for (var k = 0; k < before.Length; k++)
                prices[(l * width) + k] = lattice.Move(before[k], shapes[l]);
        }
        return prices;
    }

    private static SlurWay[][] ByString(List<SlurWay> ways) =>
        [.. Enumerable.Range(0, 5).Select(s => ways.Where(way => way.String == s).ToArray())];

    private static List<SlurWay> SlursOf(
        StepLattice lattice,
        int step,
        ushort[] shapes,
        ushort[] before,
        NoteTable notes
    )
    {
        var ways = new List<SlurWay>();
        var inMetre = lattice.Grid.Steps[step].Strength switch
        {
            3 => lattice.Weights["slur-on-one"],
            2 => lattice.Weights["slur-on-beat"],
            _ => 0,
        };
        for (var k = 0; k < before.Length; k++)
        {
            for (var l = 0; l < shapes.Length; l++)
            {
                var kinds = lattice.SlurKinds(before[k], shapes[l]);
                for (var s = 1; kinds != 0; s++, kinds >>= 2)
                {
                    if ((kinds & 3) == 0)
                        continue;
                    var kind = (SlurKind)((kinds & 3) - 1);
                    var (from, fret) = (lattice.Shape(before[k]).FretOn(s), lattice.Shape(shapes[l]).FretOn(s));
                    var cost =
                        lattice.Slurs.Of(kind, s, from, fret)
                        + notes.Price(s, fret)
                        + notes.Missing(s, fret)
                        + notes.HalfMissed
                        + inMetre;
                    ways.Add(new(k, l, s, kind, cost));
                }
            }
        }
        return ways;
    }

    private static HalfWay[] HalvesOf(StepLattice lattice, ushort[] shapes, NoteTable notes, int key)
    {
        var ways = new List<HalfWay>();
        for (var e = 0; e < RightEvent.All.Length; e++)
        {
            if (RightEvent.All[e].Plucks is not [var (finger, s)] || s == 5)
                continue;
            for (var l = 0; l < shapes.Length; l++)
            {
                var from = lattice.Shape(shapes[l]);
                for (var m = 0; m < shapes.Length; m++)
                {
                    var to = lattice.Shape(shapes[m]);
                    if (
                        lattice.Setting.Tuning.KeyOf(s, to.FretOn(s)) != key
                        || SlurPrice.KindOf(from, to, s) is not { } kind
                    )
                        continue;
                    var fret = from.FretOn(s);
                    var cost =
                        notes.Price(s, fret) + notes.Missing(s, fret) + lattice.Slurs.Of(kind, s, fret, to.FretOn(s));
                    ways.Add(new(l, e, m, kind, cost + (notes.IsMelody(s, fret) ? lattice.Notes.Finger(finger) : 0)));
                }
            }
        }
        return [.. ways];
    }
}
