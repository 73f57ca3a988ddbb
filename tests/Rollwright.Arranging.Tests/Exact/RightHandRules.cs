using Google.OrTools.Sat;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Term = Rollwright.Arranging.Costs.Term;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>What the right hand remembers from step to step: out of every memory there is one way on.</summary>
public sealed class RightHandRules
{
    private readonly ExactModel model;
    private readonly OpenRolls rolls;
    private readonly Dictionary<(int Manner, RightEvent Event, bool IsMeant), LinearExpr> plucks = [];
    private readonly Dictionary<int, LinearExpr> slurs = [];

    private RightHandRules(ExactModel model, OpenRolls rolls)
    {
        this.model = model;
        this.rolls = rolls;
    }

    public static void Add(ExactModel model)
    {
        var ends = new Dictionary<HandMemory, List<BoolVar>>[model.Grid.Bars.Length];
        for (var bar = 0; bar < ends.Length; bar++)
        {
            var parent = model.Grid.Tree.Parent[bar];
            var rolls = new OpenRolls(model, bar);
            foreach (var (manner, isPlayed) in model.Manners[bar].Index())
                model.Price(isPlayed, PriceOfBar(model, bar, manner));
            var memories = parent < 0 ? null : AtBarLine(ends[parent]);
            for (var step = model.Grid.FirstOf(bar); step < model.Grid.Bars[bar].End.Value; step++)
                memories = new RightHandRules(model, rolls).Go(model.Steps[step], memories);
            ends[bar] = memories!;
        }
        foreach (var (from, to) in model.Grid.Tree.Seams)
        {
            if (model.Overlay.SeamTargets.TryGetValue(to, out var first))
                Join(model, AtBarLine(ends[from]), first.Event);
        }
    }

    private static Dictionary<HandMemory, List<BoolVar>> AtBarLine(Dictionary<HandMemory, List<BoolVar>> end) =>
        end.GroupBy(pair => pair.Key.AtBarLine(), pair => pair.Value)
            .ToDictionary(group => group.Key, group => group.SelectMany(ways => ways).ToList());

    // From the end of a repeat the hand must be able to go on with what was settled for its beginning.
    private static void Join(ExactModel model, Dictionary<HandMemory, List<BoolVar>> end, RightEvent first)
    {
        foreach (var (memory, ways) in end)
        {
            if (!memory.MayPlay(first))
                model.Require(ExactModel.Sum(ways) == 0);
            if (first.Plucks.Any(pluck => pluck.String == memory.String))
                ways.ForEach(way => model.Price(way, model.Lattice.Style.Weights[Term.SameString]));
        }
    }

    // Ways by the memory that they lead to.
    private Dictionary<HandMemory, List<BoolVar>> Go(StepDoings doings, Dictionary<HandMemory, List<BoolVar>>? before)
    {
        foreach (var group in doings.Plucks.GroupBy(pluck => (pluck.Manner, pluck.Event, pluck.IsMeant)))
            plucks[group.Key] = ExactModel.Sum(group.Select(pluck => pluck.Chosen));
        foreach (var group in doings.Slurs.GroupBy(slur => slur.String))
            slurs[group.Key] = ExactModel.Sum(group.Select(slur => slur.Chosen));
        var ways = Ways(doings, before?.Keys.ToArray() ?? [default]);
        foreach (var leaving in ways.GroupBy(way => way.From))
        {
            var sum = ExactModel.Sum(leaving.Select(way => way.Chosen));
            if (before is null)
                model.Require(sum == 1);
            else
                model.Require(sum == ExactModel.Sum(before[leaving.Key]));
        }
        foreach (var (key, chosen) in plucks)
            model.Require(ExactModel.Sum(ways.Where(way => way.Does == key).Select(way => way.Chosen)) == chosen);
        foreach (var (s, chosen) in slurs)
            model.Require(ExactModel.Sum(ways.Where(way => way.Slurs == s).Select(way => way.Chosen)) == chosen);
        if (rolls.After(doings) is { } isOpen)
        {
            model.Require(ExactModel.Sum(ways.Where(way => way.IsOpen == true).Select(way => way.Chosen)) <= isOpen);
            model.Require(
                ExactModel.Sum(ways.Where(way => way.IsOpen == false).Select(way => way.Chosen)) <= 1 - isOpen
            );
        }
        return ways.GroupBy(way => way.To, way => way.Chosen).ToDictionary(group => group.Key, group => group.ToList());
    }

    /// <param name="From">The memory before.</param>
    /// <param name="To">The memory after.</param>
    /// <param name="Does">What is plucked; null for a slur.</param>
    /// <param name="Slurs">The string that is slurred; 0 for none.</param>
    /// <param name="IsOpen">Whether a roll is still open after it; null where that is all the same.</param>
    /// <param name="Chosen">Whether the hand goes it.</param>
    private sealed record Way(
        HandMemory From,
        HandMemory To,
        (int, RightEvent, bool)? Does,
        int Slurs,
        bool? IsOpen,
        BoolVar Chosen
    );

    private List<Way> Ways(StepDoings doings, HandMemory[] before)
    {
        var ways = new List<Way>();
        var (isBetween, holds) = (model.Grid.Steps[doings.Step].IsBetween, model.Metre.Holds(doings.Step));
        foreach (var memory in before)
        {
            foreach (var key in plucks.Keys.Where(key => memory.MayPlay(key.Event)))
            {
                var closed = memory.After(key.Event, false, isBetween, holds);
                var open = memory.After(key.Event, true, isBetween, holds);
                if (open == closed || !rolls.AreAsked)
                    Add(memory, closed, key, null);
                else
                {
                    Add(memory, closed, key, false);
                    Add(memory, open, key, true);
                }
            }
            if (memory.Rings && slurs.ContainsKey(memory.String))
                ways.Add(new(memory, memory.AfterSlur(isBetween, holds), null, memory.String, null, model.Choice()));
        }
        return ways;

        void Add(HandMemory from, HandMemory to, (int Manner, RightEvent Event, bool IsMeant) does, bool? isOpen)
        {
            var chosen = model.Choice();
            if (!does.IsMeant)
                model.Price(chosen, PriceOf(doings.Step, from, does.Manner, does.Event));
            // What a closing lick means to do costs nothing, nor does the bar that it begins.
            else if (model.Metre.IsFirst(doings.Step))
                model.Price(chosen, -PriceOfBar(model, model.Grid.Steps[doings.Step].Bar, does.Manner));
            ways.Add(new(from, to, does, 0, isOpen, chosen));
        }
    }

    private int PriceOf(int step, HandMemory memory, int manner, RightEvent happening)
    {
        var sum = new Sum();
        var right = model.Lattice.Style.Manners[manner].Right;
        right.Of(ref sum, memory.Said(manner), happening, false, model.Metre.Said(step));
        return sum.Total;
    }

    // Only a bar as long as its metre is asked to be a roll.
    private static int PriceOfBar(ExactModel model, int bar, int manner)
    {
        var sum = new Sum();
        if (model.Grid.IsFull(bar))
            model.Lattice.Style.Manners[manner].Right.OfBar(ref sum);
        return sum.Total;
    }
}
