using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Banjo.Rolls;

namespace Rollwright.Arranging.Lattice;

/// <summary>
/// The right hand as a finite automaton over the steps of a bar: states that can be reached at each position, where each
/// event leads, and what it costs apart from the notes. Only what the hand can do has a way on.
/// </summary>
public sealed class RightHand
{
    /// <summary>No way on.</summary>
    public const int Never = -1;

    private readonly Layer[] layers;

    private RightHand(Layer[] layers) => this.layers = layers;

    /// <summary>States and ways at one position in the bar.</summary>
    /// <param name="States">States before the step.</param>
    /// <param name="Ways">For each state what may happen, in the fixed order of events.</param>
    /// <param name="NextSlur">For each state: the state after a slur on its ringing string, or <see cref="Never"/>.</param>
    public sealed record Layer(ImmutableArray<RightState> States, Way[][] Ways, int[] NextSlur);

    /// <summary>Something that the hand can do.</summary>
    /// <param name="Event">Index into <see cref="RightEvent.All"/>.</param>
    /// <param name="Next">The state after.</param>
    /// <param name="Cost">Its price apart from the notes.</param>
    public readonly record struct Way(int Event, int Next, int Cost);

    public Layer At(int position) => layers[position];

    /// <summary>States after the last step: the same for every bar, since the next bar begins a new roll.</summary>
    public ImmutableArray<RightState> Last => layers[^1].States;

    /// <summary>The states in which any bar may begin: what was played last, every roll open.</summary>
    public static ImmutableArray<RightState> Entries(int rolls)
    {
        var entries = new List<RightState> { RightState.Start(rolls) };
        entries.AddRange(RightEvent.All.Where(e => !e.IsSilent).Select(e => After(RightState.Start(rolls), e, rolls)));
        return [.. entries.Distinct()];
    }

    /// <param name="steps">Steps of the bar.</param>
    /// <param name="rolls">The rolls of the table.</param>
    /// <param name="isFull">A full bar is asked to be a roll; a pickup is not.</param>
    /// <param name="price">Prices of what the right hand does.</param>
    public static RightHand Build(int steps, ImmutableArray<Roll> rolls, bool isFull, RightPrice price)
    {
        var fitting = rolls.Where(roll => Suits(roll, steps)).ToImmutableArray();
        var all = (1 << fitting.Length) - 1;
        var entries = Entries(all);
        var layers = new Layer[steps + 1];
        var states = entries;
        for (var position = 0; position < steps; position++)
        {
            var after = position == steps - 1 ? new StateIndex(entries, all) : new StateIndex([], null);
            var ways = new Way[states.Length][];
            var slur = new int[states.Length];
            for (var r = 0; r < states.Length; r++)
            {
                ways[r] = [.. Ways(states[r], fitting, position, isFull, price, after)];
                slur[r] = states[r] is { Rings: true, String: >= 1 and <= 4 }
                    ? after.Of(new(states[r].Rolls, 0, 0, false))
                    : Never;
            }
            layers[position] = new(states, ways, slur);
            states = after.States;
        }
        layers[steps] = new(states, [], []);
        for (var position = steps - 1; position > 0; position--)
            Merge(layers, position);
        return new(layers);
    }

    private static IEnumerable<Way> Ways(
        RightState state,
        ImmutableArray<Roll> rolls,
        int position,
        bool isFull,
        RightPrice price,
        StateIndex after
    )
    {
        for (var e = 0; e < RightEvent.All.Length; e++)
        {
            var happening = RightEvent.All[e];
            if ((state.Fingers & happening.FingerMask) != 0)
                continue;
            var left = RollsLeft(state.Rolls, happening, rolls, position);
            var breaks = isFull && left == 0 && state.Rolls != 0;
            yield return new(e, after.Of(After(state, happening, left)), price.Of(state, happening, breaks));
        }
    }

    // States with the same ways on are one: which rolls are still open matters only where they differ from here.
    private static void Merge(Layer[] layers, int position)
    {
        var layer = layers[position];
        var kept = new List<int>();
        var classOf = new int[layer.States.Length];
        var known = new Dictionary<(int Slur, int String, int Hash), List<int>>();
        for (var r = 0; r < classOf.Length; r++)
        {
            var slur = layer.NextSlur[r];
            var hash = new HashCode();
            foreach (var way in layer.Ways[r])
                hash.Add(way);
            var sign = (slur, slur == Never ? 0 : layer.States[r].String, hash.ToHashCode());
            if (!known.TryGetValue(sign, out var alike))
                known[sign] = alike = [];
            var same = alike.FindIndex(c => layer.Ways[kept[c]].AsSpan().SequenceEqual(layer.Ways[r]));
            classOf[r] = same >= 0 ? alike[same] : kept.Count;
            if (classOf[r] == kept.Count)
            {
                alike.Add(kept.Count);
                kept.Add(r);
            }
        }
        layers[position] = new(
            [.. kept.Select(r => layer.States[r])],
            [.. kept.Select(r => layer.Ways[r])],
            [.. kept.Select(r => layer.NextSlur[r])]
        );
        var before = layers[position - 1];
        layers[position - 1] = before with
        {
            Ways = [.. before.Ways.Select(ways => ways.Select(way => way with { Next = classOf[way.Next] }).ToArray())],
            NextSlur = [.. before.NextSlur.Select(next => next == Never ? Never : classOf[next])],
        };
    }

    private static RightState After(RightState before, RightEvent happening, int rolls) =>
        happening.IsSilent ? new(rolls, 0, 0, false)
        : happening.IsPinch ? new(rolls, happening.FingerMask, 0, false)
        : new(
            rolls,
            happening.FingerMask,
            happening.Plucks[0].String,
            true,
            rolls == 0 && before.String != 0 ? before.Fingers : 0
        );

    // Silence keeps every roll open: the hand goes on in time and leaves one note out.
    private static int RollsLeft(int open, RightEvent happening, ImmutableArray<Roll> rolls, int position)
    {
        if (happening.IsSilent)
            return open;
        if (happening.IsPinch)
            return 0;
        var left = 0;
        for (var roll = 0; roll < rolls.Length; roll++)
        {
            if ((open & (1 << roll)) != 0 && rolls[roll].FingerAt(position) == happening.Plucks[0].Finger)
                left |= 1 << roll;
        }
        return left;
    }

    // A roll suits a bar where each half (each third of nine steps) uses all three fingers: a roll in twos stumbles in 6/8.
    private static bool Suits(Roll roll, int steps)
    {
        var group =
            steps % 2 == 0 ? steps / 2
            : steps % 3 == 0 ? steps / 3
            : steps;
        if (group < 3)
            return true;
        for (var start = 0; start + group <= steps; start += group)
        {
            if (Enumerable.Range(start, group).Select(roll.FingerAt).Distinct().Count() < 3)
                return false;
        }
        return true;
    }

    /// <summary>States in order of their first mention; after the last step all rolls are open again.</summary>
    private sealed class StateIndex
    {
        private readonly List<RightState> states;
        private readonly Dictionary<RightState, int> index = [];
        private readonly int? reopen;

        public StateIndex(ImmutableArray<RightState> known, int? reopen)
        {
            states = [.. known];
            this.reopen = reopen;
            for (var i = 0; i < known.Length; i++)
                index[known[i]] = i;
        }

        public ImmutableArray<RightState> States => [.. states];

        public int Of(RightState state)
        {
            if (reopen is { } all)
                state = state with { Rolls = all, Earlier = 0 };
            if (!index.TryGetValue(state, out var found))
            {
                index[state] = found = states.Count;
                states.Add(state);
            }
            return found;
        }
    }
}
