using Rollwright.Arranging.Costs;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The left hand's ways between single shapes of a lattice: the same two shapes come at many steps, so that a way is
/// worked out once.
/// </summary>
public sealed class ShapeWays
{
    private readonly MovePrice moves;
    private readonly Dictionary<HandShape, int> idOf = [];
    private readonly HandShape[] shapes;
    private readonly Way[] known;

    /// <summary>The left hand's way from one shape to another.</summary>
    /// <param name="Price">By a move; <see cref="MovePrice.Impossible"/> where no hand gets there.</param>
    /// <param name="Slurs">By slurs: two bits for each string from 1, 0 for none, else one more than the kind.</param>
    /// <param name="IsKnown">It has been worked out.</param>
    public readonly record struct Way(int Price, byte Slurs, bool IsKnown);

    public ShapeWays(IEnumerable<HandShape> all, MovePrice moves)
    {
        this.moves = moves;
        shapes = [.. all.Distinct()];
        for (var id = 0; id < shapes.Length; id++)
            idOf[shapes[id]] = id;
        known = new Way[shapes.Length * shapes.Length];
    }

    public int[] IdsOf(HandShape[] set) => [.. set.Select(shape => idOf[shape])];

    /// <summary>The way between two shapes, by ids.</summary>
    public Way this[int from, int to]
    {
        get
        {
            // Ways into one shape stand side by side: that is how they are asked for.
            ref var way = ref known[(to * shapes.Length) + from];
            if (!way.IsKnown)
                way = new(moves.Of(shapes[from], shapes[to]), Kinds(shapes[from], shapes[to]), true);
            return way;
        }
    }

    private static byte Kinds(HandShape from, HandShape to)
    {
        var kinds = 0;
        for (var s = 1; s <= 4; s++)
        {
            if (SlurPrice.KindOf(from, to, s) is { } kind)
                kinds |= ((int)kind + 1) << (2 * (s - 1));
        }
        return (byte)kinds;
    }

    public static SlurKind KindIn(int slurs) => (SlurKind)((slurs & 3) - 1);
}
