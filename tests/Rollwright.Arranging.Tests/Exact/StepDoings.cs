using Google.OrTools.Sat;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>All that the hands can do at one step, a yes-or-no variable each: exactly one is done.</summary>
public sealed class StepDoings
{
    /// <summary>The left hand holds a shape.</summary>
    /// <param name="Shape">When the step begins to sound.</param>
    /// <param name="After">When it is over.</param>
    /// <param name="Chosen">Whether it does.</param>
    /// <param name="Part">The part of a lick that it belongs to; null for none.</param>
    public sealed record Hand(HandShape Shape, HandShape After, BoolVar Chosen, LickDoings.Part? Part);

    /// <summary>The right hand plucks or keeps still.</summary>
    /// <param name="Hand">Under which shape.</param>
    /// <param name="Manner">In which of the style's ways of playing.</param>
    /// <param name="Event">What.</param>
    /// <param name="Chosen">Whether it does.</param>
    public sealed record Pluck(Hand Hand, int Manner, RightEvent Event, BoolVar Chosen)
    {
        /// <summary>It is what a closing lick is, and costs nothing of its own.</summary>
        public bool IsMeant => Hand.Part is { IsTag: true } && (Event.IsSilent || Event.IsPinch);
    }

    /// <summary>The left hand slurs a string that rings.</summary>
    /// <param name="Hand">Into which shape.</param>
    /// <param name="String">1 to 4.</param>
    /// <param name="Chosen">Whether it does.</param>
    public sealed record Slur(Hand Hand, int String, BoolVar Chosen);

    public StepDoings(ExactModel model, int step, IReadOnlyList<LickDoings.Part> licks)
    {
        Step = step;
        Hands =
        [
            .. model.Lattice.Shapes[step].Select(shape => new Hand(shape, shape, model.Choice(), null)),
            .. licks.Select(part => new Hand(part.Done.Shape, part.Done.After, part.Chosen, part)),
        ];
        foreach (var hand in Hands)
        {
            if (hand.Part is { } part)
                AddLick(hand, part);
            else
                AddFree(model, hand);
        }
        model.Require(ExactModel.Sum(Hands.Select(hand => hand.Chosen)) == 1);
    }

    public int Step { get; }

    public List<Hand> Hands { get; }

    public List<Pluck> Plucks { get; } = [];

    public List<Slur> Slurs { get; } = [];

    private void AddLick(Hand hand, LickDoings.Part part)
    {
        if (part.Done.SlurString is var s and not 0)
            Slurs.Add(new(hand, s, part.Chosen));
        else
            Plucks.Add(new(hand, 0, part.Done.Event, part.Chosen));
    }

    private void AddFree(ExactModel model, Hand hand)
    {
        var place = model.Grid.Steps[Step];
        var done = new List<BoolVar>();
        for (var manner = 0; manner < model.Lattice.Style.Manners.Length; manner++)
        {
            foreach (var happening in RightEvent.All.Where(happening => MayHappen(model, happening)))
            {
                var path = new PathStep(hand.Shape, RightEvent.Row(manner, RightEvent.All.IndexOf(happening)));
                if (!model.Overlay.Allows(Step, path))
                    continue;
                var pluck = new Pluck(hand, manner, happening, model.Choice());
                model.Price(pluck.Chosen, Notes(model, place, hand.Shape, happening, manner) + Laid(model, path));
                Plucks.Add(pluck);
                done.Add(pluck.Chosen);
            }
        }
        for (var s = 1; s <= 4; s++)
        {
            var slur = new Slur(hand, s, model.Choice());
            Slurs.Add(slur);
            done.Add(slur.Chosen);
        }
        model.Require(ExactModel.Sum(done) == hand.Chosen);
    }

    // Between two steps of the metre one string is plucked at most, and none where that comes too soon.
    private bool MayHappen(ExactModel model, RightEvent happening) =>
        happening.IsSilent || !model.Grid.Steps[Step].IsBetween || (!happening.IsPinch && !model.Metre.IsFast(Step));

    /// <summary>What is laid over the step adds.</summary>
    public int Laid(ExactModel model, PathStep done)
    {
        var sum = new Sum();
        model.Overlay.Price(ref sum, Step, done);
        return sum.Total;
    }

    /// <summary>Price of the notes of an event under a shape.</summary>
    public int Notes(ExactModel model, StepPlace place, HandShape shape, RightEvent happening, int manner)
    {
        var notes = model.Lattice.Notes[manner];
        var sum = new Sum();
        var missed = notes.Missed(place);
        foreach (var (finger, on) in happening.Plucks)
        {
            var key = model.Lattice.Setting.Tuning.KeyOf(on, shape.FretOn(on));
            notes.Of(ref sum, place, model.Next(Step), on, shape.FretOn(on));
            if (place.Onset == key)
                notes.Finger(ref sum, place, finger, on);
            missed = Math.Min(missed, notes.Missing(place, key));
        }
        notes.Pair(ref sum, place, happening, shape);
        return sum.Total + missed;
    }

    /// <summary>Price of a slur and of the note that it makes.</summary>
    public int Slurred(ExactModel model, SlurKind kind, int on, HandShape from, HandShape to, int manner)
    {
        var place = model.Grid.Steps[Step];
        var notes = model.Lattice.Notes[manner];
        var sum = new Sum();
        var (low, high) = (from.FretOn(on), to.FretOn(on));
        model.Lattice.Style.Manners[manner].Slurs.Of(ref sum, kind, on, low, high, place.SlurStrength);
        notes.Of(ref sum, place, model.Next(Step), on, high);
        return sum.Total + notes.Missing(place, model.Lattice.Setting.Tuning.KeyOf(on, high));
    }
}
