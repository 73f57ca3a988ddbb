using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;

namespace Rollwright.Arranging.Solving;

/// <summary>
/// A lick as one edge: its price apart from the right hand's way into it, worked out once; the right hand is walked
/// through it from each state.
/// </summary>
internal sealed class LickEdge
{
    private readonly StepLattice lattice;

    private LickEdge(StepLattice lattice, LickPlace place, int cost, int firstShape, int lastShape)
    {
        this.lattice = lattice;
        Place = place;
        Cost = cost;
        FirstShape = firstShape;
        LastShape = lastShape;
    }

    public LickPlace Place { get; }

    /// <summary>Notes, ways of the left hand inside, slurs, less what knowing the lick is worth.</summary>
    public int Cost { get; }

    /// <summary>Index of its first shape among the shapes of its first step.</summary>
    public int FirstShape { get; }

    /// <summary>Index of its last shape among the shapes of its last step.</summary>
    public int LastShape { get; }

    public int LastStep => Place.Step + Place.Path.Length - 1;

    /// <summary>The edge under an overlay; null where the overlay or the hands forbid it.</summary>
    public static LickEdge? Of(StepLattice lattice, LickPlace place, Func<int, StepOverlay> overlayOf)
    {
        var cost = -lattice.Weights[place.Lick.Role == Banjo.Licks.LickRole.Tag ? "tag" : "lick"] * place.Path.Length;
        var held = -1;
        var first = -1;
        for (var i = 0; i < place.Path.Length; i++)
        {
            var step = place.Step + i;
            var done = place.Path[i];
            var prices = lattice.Prices(step);
            var now = lattice.IndexAt(step, done.Shape);
            if (done.SlurString != 0)
            {
                if (!TrySlur(overlayOf(step), done.SlurString, held, now, out var slurred))
                    return null;
                cost += slurred;
            }
            else
            {
                cost += overlayOf(step).Notes[(done.Event * prices.Width) + now];
                if (held >= 0)
                    cost += prices.Moves[(now * prices.WidthBefore) + held];
            }
            if (i == 0)
                first = now;
            if (done.HalfShape is { } half)
            {
                var s = RightEvent.All[done.Event].Plucks[0].String;
                cost += lattice.Slurs.Of(done.HalfSlur!.Value, s, done.Shape.FretOn(s), half.FretOn(s));
                now = lattice.IndexAt(step, half);
            }
            held = now;
            if (cost >= MovePrice.Impossible)
                return null;
        }
        return new(lattice, place, cost, first, held);
    }

    private static bool TrySlur(StepOverlay overlay, int onString, int from, int to, out int cost)
    {
        foreach (ref readonly var slur in overlay.SlursOn(onString))
        {
            if (slur.From == from && slur.To == to)
            {
                cost = slur.Cost;
                return true;
            }
        }
        cost = 0;
        return false;
    }

    /// <summary>Walks the right hand through the lick from a state before its first step.</summary>
    /// <returns>Price of the right hand and the state after; null where a finger cannot follow.</returns>
    public (int Cost, int State)? Walk(int state)
    {
        var cost = 0;
        for (var i = 0; i < Place.Path.Length; i++)
        {
            var step = Place.Step + i;
            var bar = lattice.Grid.Steps[step].Bar;
            var layer = lattice.RightHands[bar].At(step - lattice.Grid.FirstOf(bar));
            if (Place.Path[i].SlurString != 0)
            {
                if (layer.NextSlur[state] == RightHand.Never || layer.States[state].String != Place.Path[i].SlurString)
                    return null;
                state = layer.NextSlur[state];
                continue;
            }
            var way = Array.Find(layer.Ways[state], way => way.Event == Place.Path[i].Event);
            if (way.Event != Place.Path[i].Event)
                return null;
            // A tag ends on purpose: its silence and its pinch are what it is.
            cost +=
                Place.Lick.Role == Banjo.Licks.LickRole.Tag
                && (RightEvent.All[way.Event].IsSilent || RightEvent.All[way.Event].IsPinch)
                    ? 0
                    : way.Cost;
            state = way.Next;
        }
        return (cost, state);
    }
}
