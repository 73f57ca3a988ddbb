using CsCheck;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Rolls;

namespace Rollwright.Arranging.Tests.Lattice;

public class RightHandTests
{
    private static readonly Style Roll = StyleTable.Roll;
    private static readonly RightPrice Price = Roll.Manners[0].Right;

    private static BarPattern Steady(int steps) =>
        new([.. Enumerable.Range(0, steps).Select(i => new BarPattern.Step(i, false, false))], true, true, false);

    // A walk through a bar by choosing among the ways; what was played, and what it cost.
    private static (List<RightEvent> Played, int Cost) Walk(RightHand hand, int steps, int seed)
    {
        var random = new Random(seed);
        var (state, cost) = (0, 0);
        var played = new List<RightEvent>();
        for (var position = 0; position < steps; position++)
        {
            var ways = hand.At(position).Ways[state];
            var way = ways[random.Next(ways.Length)];
            played.Add(RightEvent.All[RightEvent.EventOf(way.Row)]);
            (state, cost) = (way.Next, cost + way.Cost);
        }
        return (played, cost);
    }

    [Fact]
    public void No_finger_plays_on_two_steps_running() =>
        Gen.Select(Gen.Int[3, 12], Gen.Int)
            .Sample(
                (steps, seed) =>
                {
                    var (played, _) = Walk(RightHand.Build(Steady(steps), RollTable.All, Roll), steps, seed);
                    return played
                        .Zip(played.Skip(1))
                        .All(pair => (pair.First.FingerMask & pair.Second.FingerMask) == 0);
                },
                iter: 200
            );

    [Fact]
    public void Merging_states_changes_no_price() =>
        Gen.Int.Sample(
            seed =>
            {
                var (played, cost) = Walk(RightHand.Build(Steady(8), RollTable.All, Roll), 8, seed);
                return cost == Reckoned(played);
            },
            iter: 500
        );

    [Fact]
    public void A_bar_that_is_a_roll_of_the_table_breaks_none()
    {
        var hand = RightHand.Build(Steady(8), RollTable.All, Roll);
        foreach (var roll in RollTable.All)
        {
            var state = 0;
            for (var position = 0; position < 8; position++)
            {
                var way = hand.At(position)
                    .Ways[state]
                    .First(way =>
                        RightEvent.All[RightEvent.EventOf(way.Row)].Plucks is [var pluck]
                        && pluck.Finger == roll.FingerAt(position)
                        && pluck.String == roll.Strings[position % roll.Strings.Length]
                    );
                way.Cost.Should().BeLessThan(Roll.Weights[Term.RollBroken], roll.Name);
                state = way.Next;
            }
        }
    }

    // The same by hand: the rolls that still match, and the price of each event.
    private static int Reckoned(List<RightEvent> played)
    {
        var open = (1 << RollTable.All.Length) - 1;
        var state = new RightState(0, open);
        var sum = new Sum();
        Price.OfBar(ref sum);
        for (var position = 0; position < played.Count; position++)
        {
            var happening = played[position];
            var left =
                happening.IsSilent ? open
                : happening.IsPinch ? 0
                : RollTable
                    .All.Index()
                    .Where(item =>
                        (open & (1 << item.Index)) != 0 && item.Item.FingerAt(position) == happening.Plucks[0].Finger
                    )
                    .Sum(item => 1 << item.Index);
            Price.Of(ref sum, state, happening, left == 0 && open != 0, new(position, false, false));
            state =
                happening.IsSilent ? new(0, left)
                : happening.IsPinch ? new(0, left, happening.FingerMask)
                : new(
                    0,
                    left,
                    happening.FingerMask,
                    0,
                    happening.Plucks[0].String,
                    happening.Plucks[0].String < 5,
                    left == 0 && state.String != 0 ? state.Last : 0
                );
            open = left;
        }
        return sum.Total;
    }
}
