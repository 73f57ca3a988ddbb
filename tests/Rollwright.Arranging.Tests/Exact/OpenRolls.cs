using Google.OrTools.Sat;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Strokes;
using Term = Rollwright.Arranging.Costs.Term;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>Which rolls of the table a bar can still be; the step at which it stops being any is what costs.</summary>
public sealed class OpenRolls
{
    private readonly ExactModel model;
    private readonly (Roll Roll, BoolVar IsOpen)[] open;
    private readonly int price;
    private BoolVar any;

    public OpenRolls(ExactModel model, int bar)
    {
        this.model = model;
        var asking = model.Lattice.Style.Manners.Index().Where(manner => manner.Item.Right.AsksRoll).ToArray();
        price = asking.Length == 0 ? 0 : asking[0].Item.Weights[Term.RollBroken];
        if (asking.Length > 1)
            throw new NotSupportedException("This model knows one way of playing that asks for rolls.");
        open =
            model.Grid.IsFull(bar) && asking.Length == 1
                ? [.. model.Metre.RollsFor(bar).Select(roll => (roll, model.Manners[bar][asking[0].Index]))]
                : [];
        any = Any();
    }

    /// <summary>Whether the bar is asked to be a roll, in some way of playing.</summary>
    public bool AreAsked => open.Length > 0;

    /// <summary>Whether a roll is still open after a step; null where none is asked for.</summary>
    public BoolVar? After(StepDoings doings)
    {
        if (!AreAsked)
            return null;
        var place = model.Grid.Steps[doings.Step];
        for (var i = 0; i < open.Length; i++)
        {
            var (roll, before) = open[i];
            var closing = doings
                .Plucks.Where(pluck => Closes(roll, place.Main, pluck.Event))
                .Select(pluck => pluck.Chosen);
            // A slur may stand for index or middle, not for the thumb.
            var slurred = place.Main >= 0 && roll.FingerAt(place.Main) == RightFinger.T ? doings.Slurs : [];
            var closes = ExactModel.Sum(closing.Concat(slurred.Select(slur => slur.Chosen)));
            var after = model.Choice();
            model.Require(after <= before);
            model.Require(after <= 1 - closes);
            model.Require(after >= before - closes);
            open[i] = (roll, after);
        }
        var was = any;
        any = Any();
        var meant = doings.Plucks.Where(pluck => pluck.IsMeant).Select(pluck => pluck.Chosen);
        var breaks = model.Choice();
        model.Require(breaks >= was - any - ExactModel.Sum(meant));
        model.Price(breaks, price);
        return any;
    }

    private static bool Closes(Roll roll, int main, RightEvent happening) =>
        !happening.IsSilent && (happening.IsPinch || main < 0 || roll.FingerAt(main) != happening.Plucks[0].Finger);

    private BoolVar Any()
    {
        var some = model.Choice();
        foreach (var (_, isOpen) in open)
            model.Require(some >= isOpen);
        model.Require(some <= ExactModel.Sum(open.Select(item => item.IsOpen)));
        return some;
    }
}
