using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// A lick as one edge: its price apart from the hands' ways into it, worked out once; the right hand is walked through
/// it from each state. Its shapes inside need not be among those of the steps; only the last one is.
/// </summary>
internal sealed class LickEdge
{
    private readonly StepLattice lattice;

    private LickEdge(StepLattice lattice, LickPlace place, int cost, int[] entry)
    {
        this.lattice = lattice;
        Place = place;
        Cost = cost;
        Entry = entry;
        LastShape = Array.IndexOf(lattice.Shapes[place.LastStep], place.Path[^1].After);
    }

    public LickPlace Place { get; }

    /// <summary>Notes, ways of the left hand inside, slurs, less what knowing the lick is worth.</summary>
    public int Cost { get; }

    /// <summary>Price of the left hand's way into it from each shape held before, padded.</summary>
    public int[] Entry { get; }

    /// <summary>Index of its last shape among the shapes of its last step.</summary>
    public int LastShape { get; }

    /// <summary>The edge under an overlay; null where the overlay or the hands forbid it.</summary>
    public static LickEdge? Of(StepLattice lattice, LickPlace place, Overlay overlay, EntryPrices entries)
    {
        if (!overlay.Allows(place))
            return null;
        for (var i = 1; i < place.Path.Length; i++)
        {
            if (!MovePrice.IsPossible(place.Path[i - 1].After, place.Path[i].Shape))
                return null;
        }
        var sum = new Sum();
        Inside(ref sum, lattice, place, overlay);
        return new(lattice, place, sum.Total, entries.Into(place.Step, place.Path[0].Shape));
    }

    /// <summary>The terms of a lick apart from the ways into it and the right hand.</summary>
    public static void Inside<T>(ref T tally, StepLattice lattice, LickPlace place, Overlay overlay)
        where T : struct, ITally
    {
        var worth = place.Lick.Role == LickRole.Tag ? Term.Tag : Term.Lick;
        tally.Add(worth, -lattice.Style.Weights[worth] * place.Path.Length);
        for (var i = 0; i < place.Path.Length; i++)
            StepTerms.Sounding(
                ref tally,
                lattice,
                overlay,
                place.Step + i,
                i == 0 ? null : place.Path[i - 1].After,
                place.Path[i]
            );
    }

    /// <summary>Walks the right hand through the lick from a state before its first step.</summary>
    /// <returns>Price of the right hand and the state after; null where a finger cannot follow.</returns>
    public (int Cost, int State)? Walk(int state)
    {
        var cost = 0;
        for (var i = 0; i < Place.Path.Length; i++)
        {
            var layer = lattice.LayerOf(Place.Step + i);
            var done = Place.Path[i];
            if (done.SlurString != 0)
            {
                var slur = layer.Slurs[state];
                if (!slur.IsPossible || layer.States[state].String != done.SlurString)
                    return null;
                cost += slur.Cost;
                state = slur.Next;
                continue;
            }
            if (layer.WayOf(state, done.Row) is not { } way)
                return null;
            // A tag ends on purpose: its silence and its pinch are what it is.
            cost += IsMeant(Place, done) ? 0 : way.Cost;
            state = way.Next;
        }
        return (cost, state);
    }

    /// <summary>Whether a silence or a pinch belongs to the lick and costs nothing.</summary>
    public static bool IsMeant(LickPlace place, PathStep done) =>
        place.Lick.Role == LickRole.Tag && (done.Event.IsSilent || done.Event.IsPinch);

    /// <summary>Prices of the ways into a first shape, worked out once a step and shape.</summary>
    internal sealed class EntryPrices(StepLattice lattice)
    {
        private readonly Dictionary<(HandShape[] Before, HandShape Shape), int[]> known = [];

        public int[] Into(int step, HandShape shape)
        {
            var before = lattice.Before(step);
            if (known.TryGetValue((before, shape), out var found))
                return found;
            found = new int[ShapePair.Padded(before.Length)];
            Array.Fill(found, MovePrice.Impossible);
            for (var k = 0; k < before.Length; k++)
                found[k] = lattice.Style.Moves.Of(before[k], shape);
            return known[(before, shape)] = found;
        }
    }
}
