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

    /// <summary>A stretch up to this, mm, costs nothing; wider ones do, before the hand is no longer comfortable (assumption).</summary>
    private const double EasySpan = 80;

    /// <summary>What the way of an open hand costs of that of a hand that holds something (assumption).</summary>
    private const int OpenTravelPercent = 60;

    private readonly int place = weights[Term.Place];
    private readonly int placeMore = weights[Term.PlaceMore];
    private readonly int travel = weights[Term.Travel];
    private readonly int fingerChange = weights[Term.FingerChange];
    private readonly int hop = weights[Term.Hop];
    private readonly int stretch = weights[Term.Stretch];
    private readonly int littleFinger = weights[Term.LittleFinger];

    /// <summary>Whether the hand gets from one shape to the other within a step.</summary>
    public static bool IsPossible(HandShape from, HandShape to)
    {
        if (from.IsOpen || to.IsOpen || from == to)
            return true;
        var low = Math.Min(from.LowestFret, to.LowestFret);
        var high = Math.Max(from.HighestFret, to.HighestFret);
        return Neck.Place(high) - Neck.Place(low) <= Reach.Widest + Reach.MoveInAStep;
    }

    /// <summary>The price as a bare sum; <see cref="Impossible"/> where no hand gets there.</summary>
    public int Of(HandShape from, HandShape to)
    {
        if (!IsPossible(from, to))
            return Impossible;
        var sum = new Sum();
        Of(ref sum, from, to);
        return sum.Total;
    }

    /// <summary>The terms of a way that is possible.</summary>
    public void Of<T>(ref T tally, HandShape from, HandShape to)
        where T : struct, ITally
    {
        if (from == to || to.IsOpen)
            return;
        var (moves, places) = (false, false);
        for (var s = 1; s <= 4; s++)
        {
            var fret = to.FretOn(s);
            if (fret == 0)
                continue;
            if (from.FretOn(s) != fret)
            {
                tally.Add(places ? Term.PlaceMore : Term.Place, places ? placeMore : place);
                moves = places = true;
                if (to.FingerOn(s) == 4)
                    tally.Add(Term.LittleFinger, littleFinger);
                if (Hops(from, to, s))
                    tally.Add(Term.Hop, hop);
            }
            else if (from.FingerOn(s) != to.FingerOn(s))
            {
                moves = true;
                tally.Add(Term.FingerChange, fingerChange);
            }
        }
        if (moves)
            tally.Add(Term.Stretch, (int)(stretch * Math.Max(0, to.Span - EasySpan)));
        // An open hand stands somewhere: a high place is farther from where it mostly is, though it has time to go there.
        var way = Math.Abs(Neck.Place(from.IsOpen ? 1 : from.Position) - Neck.Place(to.Position));
        tally.Add(Term.Travel, (int)(travel * way) * (from.IsOpen ? OpenTravelPercent : 100) / 100);
    }

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
