using Google.OrTools.Sat;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Shapes;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>
/// The left hand goes from shape to shape: out of every shape held there is one way on into each step that follows, by a
/// move or by a slur.
/// </summary>
public static class LeftHandRules
{
    private static readonly HandShape[] Nothing = [HandShape.Open];

    public static void Add(ExactModel model)
    {
        foreach (var step in model.Steps)
        {
            new Crossing(model, step).Add();
            foreach (var hand in step.Hands.Where(hand => hand.Part is not null))
                PriceInside(model, step, hand);
        }
        foreach (var (from, to) in model.Grid.Tree.Seams)
        {
            if (model.Overlay.SeamTargets.TryGetValue(to, out var first))
                Join(model, model.Steps[model.Grid.Bars[from].End.Value - 1], first);
        }
    }

    /// <summary>The ways from the shapes before into those of one step.</summary>
    private sealed class Crossing(ExactModel model, StepDoings step)
    {
        private readonly int before = model.Before(step.Step);
        private readonly Dictionary<StepDoings.Hand, List<BoolVar>> outOf = [];
        private readonly Dictionary<StepDoings.Hand, List<BoolVar>> moved = [];
        private readonly Dictionary<(StepDoings.Hand, int), List<BoolVar>> slurred = [];

        public void Add()
        {
            var held = before < 0 ? null : model.Steps[before].Hands;
            foreach (var to in step.Hands.Where(hand => hand.Part is not { IsFirst: false }))
            {
                // Where nothing was held, the open hand is the only one before.
                foreach (var from in held?.Where(hand => hand.Part is not { IsLast: false }) ?? [null!])
                    AddWays(from, to);
            }
            foreach (var from in held?.Where(hand => hand.Part is not { IsLast: false }) ?? [])
                model.Require(ExactModel.Sum(outOf.GetValueOrDefault(from, [])) == from.Chosen);
            foreach (var to in step.Hands.Where(hand => hand.Part is not { IsFirst: false }))
                Arrive(to);
        }

        private void AddWays(StepDoings.Hand? from, StepDoings.Hand to)
        {
            var shape = from?.After ?? Nothing[0];
            var price = model.Lattice.Style.Moves.Of(shape, to.Shape);
            if (MovePrice.IsPossible(shape, to.Shape))
                Note(from, moved, to, price);
            if (to.Part is not null || from is null || !MaySlur())
                return;
            for (var s = 1; s <= 4; s++)
            {
                if (SlurPrice.KindOf(shape, to.Shape, s) is not { } kind)
                    continue;
                for (var manner = 0; manner < model.Lattice.Style.Manners.Length; manner++)
                {
                    var silent = RightEvent.Row(manner, RightEvent.Silence);
                    var done = new PathStep(to.Shape, silent, s, kind);
                    if (!model.Overlay.Allows(step.Step, done))
                        continue;
                    var cost = step.Slurred(model, kind, s, shape, to.Shape, manner) + step.Laid(model, done);
                    var chosen = Note(from, slurred, (to, s), cost);
                    model.Require(chosen <= model.Manners[model.Grid.Steps[step.Step].Bar][manner]);
                }
            }
        }

        // A step at which play also arrives from elsewhere is not slurred into.
        private bool MaySlur()
        {
            var bar = model.Grid.Steps[step.Step].Bar;
            return model.Lattice.Bounds.Slurs
                && !(model.Metre.IsFirst(step.Step) && model.Grid.Tree.Seams.Any(seam => seam.To == bar));
        }

        private BoolVar Note<T>(StepDoings.Hand? from, Dictionary<T, List<BoolVar>> ways, T to, long price)
            where T : notnull
        {
            var chosen = model.Choice();
            model.Price(chosen, price);
            Put(ways, to, chosen);
            if (from is not null)
                Put(outOf, from, chosen);
            return chosen;
        }

        private static void Put<T>(Dictionary<T, List<BoolVar>> ways, T at, BoolVar chosen)
            where T : notnull
        {
            if (!ways.TryGetValue(at, out var list))
                ways[at] = list = [];
            list.Add(chosen);
        }

        private void Arrive(StepDoings.Hand to)
        {
            var plucks = step.Plucks.Where(pluck => pluck.Hand == to).Select(pluck => pluck.Chosen);
            // A lick that begins with a slur is joined by a move: it brings its own price.
            var slurs = step.Slurs.Where(slur => slur.Hand == to).ToArray();
            if (to.Part is not null)
                plucks = plucks.Concat(slurs.Select(slur => slur.Chosen));
            model.Require(ExactModel.Sum(moved.GetValueOrDefault(to, [])) == ExactModel.Sum(plucks));
            if (to.Part is null && model.Metre.Holds(step.Step))
                KeepStill(to);
            if (to.Part is not null)
                return;
            foreach (var slur in slurs)
                model.Require(ExactModel.Sum(slurred.GetValueOrDefault((to, slur.String), [])) == slur.Chosen);
        }

        // Silence between steps that lie within one of the metre leaves no time for two moves: it keeps the shape before.
        private void KeepStill(StepDoings.Hand to)
        {
            var silence = step.Plucks.Where(pluck => pluck.Hand == to && pluck.Event.IsSilent);
            var same =
                before < 0
                    ? []
                    : model
                        .Steps[before]
                        .Hands.Where(hand => hand.Part is not { IsLast: false } && hand.After == to.Shape);
            var held =
                before < 0 && to.Shape.IsOpen
                    ? LinearExpr.Constant(1)
                    : ExactModel.Sum(same.Select(hand => hand.Chosen));
            model.Require(ExactModel.Sum(silence.Select(pluck => pluck.Chosen)) <= held);
        }
    }

    // What a lick's own steps cost: its notes, the ways inside it, its slurs.
    private static void PriceInside(ExactModel model, StepDoings step, StepDoings.Hand hand)
    {
        var part = hand.Part!;
        var done = part.Done;
        var before = part.IsFirst ? (HandShape?)null : part.Place.Path[part.Index - 1].After;
        long price = step.Laid(model, done);
        if (done.SlurString is var s and not 0)
        {
            if (before is null)
                throw new NotSupportedException($"'{part.Place.Lick.Name}' begins with a slur.");
            price += step.Slurred(model, done.Slur!.Value, s, before.Value, done.Shape, 0);
        }
        else
        {
            price += step.Notes(model, model.Grid.Steps[step.Step], done.Shape, done.Event, 0);
            if (before is { } held)
                price += model.Lattice.Style.Moves.Of(held, done.Shape);
        }
        if (done.HalfShape is { } half)
        {
            var on = done.Event.Plucks[0].String;
            var sum = new Sum();
            var (low, high) = (done.Shape.FretOn(on), half.FretOn(on));
            model.Lattice.Style.Manners[0].Slurs.Of(ref sum, done.HalfSlur!.Value, on, low, high, 0);
            price += sum.Total;
        }
        model.Price(part.Chosen, price);
    }

    // From the end of a repeat the hand must reach the beginning that play jumps to.
    private static void Join(ExactModel model, StepDoings last, PathStep first)
    {
        foreach (var hand in last.Hands.Where(hand => hand.Part is not { IsLast: false }))
        {
            if (MovePrice.IsPossible(hand.After, first.Shape))
                model.Price(hand.Chosen, model.Lattice.Style.Moves.Of(hand.After, first.Shape));
            else
                model.Require(hand.Chosen == 0);
        }
    }
}
