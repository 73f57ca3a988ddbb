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
    private const byte Unknown = 255;

    private readonly MovePrice moves;
    private readonly Dictionary<HandShape, int> idOf = [];
    private readonly HandShape[] shapes;
    private readonly int[] prices;
    private readonly byte[] slurs;

    public ShapeWays(IEnumerable<HandShape> all, MovePrice moves)
    {
        this.moves = moves;
        shapes = [.. all.Distinct()];
        for (var id = 0; id < shapes.Length; id++)
            idOf[shapes[id]] = id;
        prices = new int[shapes.Length * shapes.Length];
        Array.Fill(prices, -1);
        slurs = new byte[prices.Length];
        Array.Fill(slurs, Unknown);
    }

    public int[] IdsOf(HandShape[] set) => [.. set.Select(shape => idOf[shape])];

    /// <summary>Price of the way, by ids.</summary>
    public int Price(int from, int to)
    {
        ref var known = ref prices[(from * shapes.Length) + to];
        if (known < 0)
            known = moves.Of(shapes[from], shapes[to]);
        return known;
    }

    /// <summary>
    /// The slurs that lead from one shape to another, by ids: two bits for each string from 1, 0 for none, else one more
    /// than the kind.
    /// </summary>
    public int Slurs(int from, int to)
    {
        ref var known = ref slurs[(from * shapes.Length) + to];
        // All strings slurred at once would be the sign for unknown, and is none: one finger slurs.
        if (known == Unknown)
            known = (byte)Kinds(shapes[from], shapes[to]);
        return known;
    }

    private static int Kinds(HandShape from, HandShape to)
    {
        var kinds = 0;
        for (var s = 1; s <= 4; s++)
        {
            if (SlurPrice.KindOf(from, to, s) is { } kind)
                kinds |= ((int)kind + 1) << (2 * (s - 1));
        }
        return kinds;
    }

    public static SlurKind KindIn(int slurs) => (SlurKind)((slurs & 3) - 1);
}
