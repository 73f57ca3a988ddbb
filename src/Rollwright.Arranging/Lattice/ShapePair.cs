using System.Runtime.Intrinsics;
using Rollwright.Arranging.Costs;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The left hand's ways from the shapes of one step to those of the next. Many steps have the same two sets of shapes,
/// so that a pair is worked out once. Rows are padded to whole vectors with <see cref="MovePrice.Impossible"/>.
/// </summary>
public sealed class ShapePair
{
    private readonly int before;
    private readonly int shapes;
    private readonly Slur[] slurs;

    // Where the slurs of each string begin, and where the last ones end.
    private readonly int[] slurStarts;
    private int[]? onto;

    /// <summary>A slur from shape k before into shape l, without a pluck.</summary>
    public readonly record struct Slur(short From, short To, SlurKind Kind);

    private ShapePair(int before, int shapes, int[] into, Slur[] slurs, int[] slurStarts)
    {
        (this.before, this.shapes) = (before, shapes);
        (this.slurs, this.slurStarts) = (slurs, slurStarts);
        Into = into;
    }

    /// <summary>Price of the way from shape k before to shape l at [l * widthBefore + k].</summary>
    public int[] Into { get; }

    /// <summary>The same at [k * width + l]; only what looks back asks for it.</summary>
    public int[] Onto => onto ??= Transposed();

    /// <summary>Slurs of all strings, string by string from the first.</summary>
    public ReadOnlySpan<Slur> Slurs => slurs;

    /// <summary>Where in <see cref="Slurs"/> those of a string stand.</summary>
    public Range SlursOn(int onString) => slurStarts[onString - 1]..slurStarts[onString];

    public static int Padded(int count) =>
        (count + Vector512<int>.Count - 1) / Vector512<int>.Count * Vector512<int>.Count;

    /// <param name="before">Ids of the shapes before.</param>
    /// <param name="shapes">Ids of the shapes of the step.</param>
    /// <param name="ways">The ways between single shapes.</param>
    public static ShapePair Of(int[] before, int[] shapes, ShapeWays ways)
    {
        var widthBefore = Padded(before.Length);
        var into = GC.AllocateUninitializedArray<int>(shapes.Length * widthBefore);
        List<Slur>[] slurs =
        [
            [],
            [],
            [],
            [],
        ];
        for (var l = 0; l < shapes.Length; l++)
        {
            var row = into.AsSpan(l * widthBefore, widthBefore);
            row[before.Length..].Fill(MovePrice.Impossible);
            for (var k = 0; k < before.Length; k++)
            {
                var way = ways[before[k], shapes[l]];
                row[k] = way.Price;
                for (int s = 0, kinds = way.Slurs; kinds != 0; s++, kinds >>= 2)
                {
                    if ((kinds & 3) != 0)
                        slurs[s].Add(new((short)k, (short)l, ShapeWays.KindIn(kinds)));
                }
            }
        }
        var starts = new int[5];
        for (var s = 1; s <= 4; s++)
            starts[s] = starts[s - 1] + slurs[s - 1].Count;
        return new(before.Length, shapes.Length, into, [.. slurs[0], .. slurs[1], .. slurs[2], .. slurs[3]], starts);
    }

    /// <summary>The hand keeps its shape: no other way leads from step to step.</summary>
    public static ShapePair Still(int[] before, int[] shapes)
    {
        var widthBefore = Padded(before.Length);
        var into = new int[shapes.Length * widthBefore];
        Array.Fill(into, MovePrice.Impossible);
        for (var k = 0; k < before.Length; k++)
        {
            if (Array.IndexOf(shapes, before[k]) is var l and >= 0)
                into[(l * widthBefore) + k] = 0;
        }
        return new(before.Length, shapes.Length, into, [], new int[5]);
    }

    private int[] Transposed()
    {
        var (width, widthBefore) = (Padded(shapes), Padded(before));
        var turned = GC.AllocateUninitializedArray<int>(before * width);
        for (var k = 0; k < before; k++)
        {
            var row = turned.AsSpan(k * width, width);
            row[shapes..].Fill(MovePrice.Impossible);
            for (var l = 0; l < shapes; l++)
                row[l] = Into[(l * widthBefore) + k];
        }
        return turned;
    }
}
