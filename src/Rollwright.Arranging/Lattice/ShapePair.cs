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
    /// <summary>A slur from shape k before into shape l, without a pluck.</summary>
    public readonly record struct Slur(int From, int To, int String, SlurKind Kind);

    /// <summary>The hand keeps its shape: no other way leads from step to step.</summary>
    public static ShapePair Still(int[] before, int[] shapes)
    {
        var (width, widthBefore) = (Padded(shapes.Length), Padded(before.Length));
        var into = new int[shapes.Length * widthBefore];
        var onto = new int[before.Length * width];
        Array.Fill(into, MovePrice.Impossible);
        Array.Fill(onto, MovePrice.Impossible);
        for (var k = 0; k < before.Length; k++)
        {
            if (Array.IndexOf(shapes, before[k]) is var l and >= 0)
                (into[(l * widthBefore) + k], onto[(k * width) + l]) = (0, 0);
        }
        return new(into, onto, []);
    }

    private ShapePair(int[] into, int[] onto, Slur[] slurs)
    {
        Into = into;
        Onto = onto;
        Slurs = slurs;
    }

    /// <summary>Price of the way from shape k before to shape l at [l * widthBefore + k].</summary>
    public int[] Into { get; }

    /// <summary>The same at [k * width + l].</summary>
    public int[] Onto { get; }

    public Slur[] Slurs { get; }

    public static int Padded(int count) =>
        (count + Vector512<int>.Count - 1) / Vector512<int>.Count * Vector512<int>.Count;

    /// <param name="before">Ids of the shapes before.</param>
    /// <param name="shapes">Ids of the shapes of the step.</param>
    /// <param name="ways">The ways between single shapes.</param>
    public static ShapePair Of(int[] before, int[] shapes, ShapeWays ways)
    {
        var (width, widthBefore) = (Padded(shapes.Length), Padded(before.Length));
        var into = new int[shapes.Length * widthBefore];
        var onto = new int[before.Length * width];
        Array.Fill(into, MovePrice.Impossible);
        Array.Fill(onto, MovePrice.Impossible);
        var slurs = new List<Slur>();
        for (var k = 0; k < before.Length; k++)
        {
            for (var l = 0; l < shapes.Length; l++)
            {
                var price = ways.Price(before[k], shapes[l]);
                into[(l * widthBefore) + k] = price;
                onto[(k * width) + l] = price;
                var kinds = ways.Slurs(before[k], shapes[l]);
                for (var s = 1; kinds != 0; s++, kinds >>= 2)
                {
                    if ((kinds & 3) != 0)
                        slurs.Add(new(k, l, s, ShapeWays.KindIn(kinds)));
                }
            }
        }
        return new(into, onto, [.. slurs]);
    }
}
