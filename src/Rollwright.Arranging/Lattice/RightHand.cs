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
    private readonly Dictionary<RightState, int>[] indexOf;

    private RightHand(Layer[] layers, Dictionary<RightState, int>[] indexOf)
    {
        this.layers = layers;
        this.indexOf = indexOf;
    }

    /// <summary>States and ways at one position in the bar.</summary>
    /// <param name="States">States before the step.</param>
    /// <param name="Next">For state r and event e at [r * events + e]: the state after, or <see cref="Never"/>.</param>
    /// <param name="Cost">The price of that way.</param>
    /// <param name="NextSlur">For each state: the state after a slur on its ringing string, or <see cref="Never"/>.</param>
    public sealed record Layer(ImmutableArray<RightState> States, int[] Next, int[] Cost, int[] NextSlur);

    public Layer At(int position) => layers[position];

    /// <summary>States after the last step: the same for every bar, since the next bar begins a new roll.</summary>
    public ImmutableArray<RightState> Last => layers[^1].States;

    public int IndexOf(int position, RightState state) => indexOf[position][state];

    /// <summary>The states in which any bar may begin: what was played last, every roll open.</summary>
    public static ImmutableArray<RightState> Entries(int rolls)
    {
        var entries = ImmutableArray.CreateBuilder<RightState>();
        entries.Add(RightState.Start(rolls));
        foreach (var happening in RightEvent.All.Where(e => !e.IsSilent))
            entries.Add(After(RightState.Start(rolls), happening, rolls));
        for (var s = 1; s <= 4; s++)
            entries.Add(new(rolls, 0, s, false));
        return [.. entries.Distinct()];
    }

    /// <param name="steps">Steps of the bar.</param>
    /// <param name="rolls">The rolls of the table.</param>
    /// <param name="isFull">A full bar is asked to be a roll; a pickup is not.</param>
    /// <param name="price">Prices of what the right hand does.</param>
    public static RightHand Build(int steps, ImmutableArray<Roll> rolls, bool isFull, RightPrice price)
    {
        var all = (1 << rolls.Length) - 1;
        var events = RightEvent.All;
        var entries = Entries(all);
        var layers = new Layer[steps + 1];
        var indexOf = new Dictionary<RightState, int>[steps + 1];
        var states = entries;
        for (var position = 0; position < steps; position++)
        {
            indexOf[position] = Index(states);
            var after = new List<RightState>();
            var afterIndex = new Dictionary<RightState, int>();
            if (position == steps - 1)
            {
                after.AddRange(entries);
                afterIndex = Index(entries);
            }
            int Intern(RightState state)
            {
                if (position == steps - 1)
                    state = state with { Rolls = all };
                if (!afterIndex.TryGetValue(state, out var index))
                {
                    index = after.Count;
                    afterIndex[state] = index;
                    after.Add(state);
                }
                return index;
            }

            var next = new int[states.Length * events.Length];
            var cost = new int[states.Length * events.Length];
            var slur = new int[states.Length];
            for (var r = 0; r < states.Length; r++)
            {
                for (var e = 0; e < events.Length; e++)
                {
                    var at = (r * events.Length) + e;
                    next[at] = Never;
                    if ((states[r].Fingers & events[e].FingerMask) != 0)
                        continue;
                    var left = RollsLeft(states[r].Rolls, events[e], rolls, position);
                    var breaks = isFull && left == 0 && states[r].Rolls != 0;
                    cost[at] = price.Of(states[r], events[e], breaks);
                    next[at] = Intern(After(states[r] with { Rolls = left }, events[e], left));
                }
                slur[r] = states[r] is { Rings: true, String: >= 1 and <= 4 }
                    ? Intern(new(states[r].Rolls, 0, states[r].String, false))
                    : Never;
            }
            layers[position] = new(states, next, cost, slur);
            states = [.. after];
        }
        layers[steps] = new(states, [], [], []);
        indexOf[steps] = Index(states);
        return new(layers, indexOf);
    }

    private static Dictionary<RightState, int> Index(ImmutableArray<RightState> states)
    {
        var index = new Dictionary<RightState, int>();
        foreach (var state in states)
            index.Add(state, index.Count);
        return index;
    }

    private static RightState After(RightState before, RightEvent happening, int rolls) =>
        happening.IsSilent ? new(rolls, 0, 0, false)
        : happening.IsPinch ? new(rolls, happening.FingerMask, 0, false)
        : new(rolls, happening.FingerMask, happening.Plucks[0].String, true);

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
}
