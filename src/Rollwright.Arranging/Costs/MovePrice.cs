using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Arranging.Costs;

/// <summary>
/// What the left hand's way from one shape to the next costs: fingers put down, the index finger's way in mm, fingers
/// that change or hop. Lifting is free. A way that no hand makes within a step has no price.
/// </summary>
public sealed class MovePrice(Weights weights)
{
    /// <summary>No hand does this within a step.</summary>
    public const int Impossible = 1 << 28;

    private readonly int place = weights["place"];
    private readonly int travel = weights["travel"];
    private readonly int fingerChange = weights["finger-change"];
    private readonly int hop = weights["hop"];
    private readonly int stretch = weights["stretch"];

    public int Of(HandShape from, HandShape to)
    {
        if (from == to || to.IsOpen)
            return 0;
        var cost = 0;
        for (var s = 1; s <= 4; s++)
        {
            var fret = to.FretOn(s);
            if (fret == 0)
                continue;
            if (from.FretOn(s) != fret)
                cost += place + (Hops(from, to, s) ? hop : 0);
            else if (from.FingerOn(s) != to.FingerOn(s))
                cost += fingerChange;
        }
        if (cost > 0)
            cost += (int)(stretch * Math.Max(0, to.Span - EasySpan));
        if (!from.IsOpen)
        {
            var low = Math.Min(from.LowestFret, to.LowestFret);
            var high = Math.Max(from.HighestFret, to.HighestFret);
            if (Neck.Place(high) - Neck.Place(low) > Reach.Widest + Reach.MoveInAStep)
                return Impossible;
            cost += (int)(travel * Math.Abs(Neck.Place(from.Position) - Neck.Place(to.Position)));
        }
        return cost;
    }

    private const double EasySpan = 80;

    // The finger that comes down was holding another string a moment ago.
    private static bool Hops(HandShape from, HandShape to, int onString)
    {
        var finger = to.FingerOn(onString);
        for (var s = 1; s <= 4; s++)
        {
            if (s != onString && from.FretOn(s) > 0 && from.FingerOn(s) == finger && to.FretOn(s) != from.FretOn(s))
                return true;
        }
        return false;
    }
}
