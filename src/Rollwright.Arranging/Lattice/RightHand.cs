using System.Collections.Immutable;
using System.Numerics;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Rolls;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

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

    private RightHand(Layer[] layers, BarPattern pattern)
    {
        this.layers = layers;
        Pattern = pattern;
    }

    /// <summary>States and ways at one position in the bar.</summary>
    /// <param name="States">States before the step.</param>
    /// <param name="Ways">For each state what may happen, in the fixed order of rows.</param>
    /// <param name="Slurs">For each state: the way of a slur on its ringing string.</param>
    public sealed record Layer(ImmutableArray<RightState> States, Way[][] Ways, SlurWay[] Slurs)
    {
        private readonly Lazy<short[]> wayOfRow = new(() => Index(Ways));

        /// <summary>The way of a state in a row; null where the hand has none.</summary>
        public Way? WayOf(int state, int row)
        {
            var at = wayOfRow.Value[(state * RightEvent.MostRows) + row];
            return at < 0 ? null : Ways[state][at];
        }

        private static short[] Index(Way[][] ways)
        {
            var index = new short[ways.Length * RightEvent.MostRows];
            Array.Fill(index, (short)-1);
            for (var r = 0; r < ways.Length; r++)
            {
                for (var i = 0; i < ways[r].Length; i++)
                    index[(r * RightEvent.MostRows) + ways[r][i].Row] = (short)i;
            }
            return index;
        }
    }

    /// <summary>Something that the hand can do.</summary>
    /// <param name="Row">Manner and event: see <see cref="RightEvent.Row"/>.</param>
    /// <param name="Next">The state after.</param>
    /// <param name="Cost">Its price apart from the notes.</param>
    public readonly record struct Way(int Row, int Next, int Cost);

    /// <summary>The left hand makes the note; what that means for the right hand.</summary>
    /// <param name="Next">The state after, or <see cref="Never"/>.</param>
    /// <param name="Cost">Its price apart from the slur and the note.</param>
    public readonly record struct SlurWay(int Next, int Cost)
    {
        public bool IsPossible => Next != Never;
    }

    /// <summary>How the steps of the bar lie in time.</summary>
    public BarPattern Pattern { get; }

    public Layer At(int position) => layers[position];

    /// <summary>States after the last step: the same for every bar of a tune, since the next bar begins a new roll.</summary>
    public ImmutableArray<RightState> Last => layers[^1].States;

    /// <summary>The states in which any bar may begin: what was played last, every roll open. The first is rest.</summary>
    public static ImmutableArray<RightState> Entries(int manners, bool hasShortSteps)
    {
        var entries = new List<RightState>();
        for (var manner = 0; manner < manners; manner++)
        {
            entries.Add(new(manner, 0));
            foreach (var happening in RightEvent.All.Where(e => !e.IsSilent))
                entries.Add(After(new(manner, 0), happening, 0, manner, default));
            if (!hasShortSteps)
                continue;
            // Short steps before the bar line tire more than one finger, and leave a string ringing after a slur.
            for (var tired = 0; tired < 8; tired++)
            {
                for (var s = 0; s <= 5; s++)
                    entries.Add(new(manner, 0, tired, 0, s, s is >= 1 and <= 4));
            }
        }
        return [.. entries.Distinct()];
    }

    /// <param name="pattern">How the steps of the bar lie in time.</param>
    /// <param name="rolls">The rolls of the table.</param>
    /// <param name="style">The ways of playing that it may choose from.</param>
    public static RightHand Build(BarPattern pattern, ImmutableArray<Roll> rolls, Style style)
    {
        var steps = pattern.Steps.Length;
        var mains = pattern.Steps.Count(step => !step.IsBetween);
        var fitting = rolls.Where(roll => Suits(roll, mains)).ToImmutableArray();
        var all = (1 << fitting.Length) - 1;
        var entries = Entries(style.Manners.Length, pattern.HasShortSteps);
        var layers = new Layer[steps + 1];
        var states = entries;
        for (var position = 0; position < steps; position++)
        {
            var after = position == steps - 1 ? new StateIndex(entries) : new StateIndex([]);
            var ways = new Way[states.Length][];
            var slurs = new SlurWay[states.Length];
            for (var r = 0; r < states.Length; r++)
            {
                ways[r] = [.. Ways(states[r], pattern, position, fitting, all, style, after)];
                var before =
                    position == 0
                        ? states[r] with
                        {
                            Rolls = RollsAtFirst(style, states[r].Manner, pattern, all),
                        }
                        : states[r];
                slurs[r] = before is { Rings: true, String: >= 1 and <= 4 }
                    ? SlurFrom(before, pattern, position, fitting, style, after)
                    : new(Never, 0);
            }
            layers[position] = new(states, ways, slurs);
            states = after.States;
        }
        layers[steps] = new(states, [], []);
        for (var position = steps - 1; position > 0; position--)
            Merge(layers, position);
        return new(layers, pattern);
    }

    private static IEnumerable<Way> Ways(
        RightState state,
        BarPattern pattern,
        int position,
        ImmutableArray<Roll> rolls,
        int all,
        Style style,
        StateIndex after
    )
    {
        var step = pattern.Steps[position];
        for (var manner = 0; manner < style.Manners.Length; manner++)
        {
            // A phrase is played in one way: it changes where a phrase opens.
            if (manner != state.Manner && !(position == 0 && pattern.OpensPhrase))
                continue;
            var price = style.Manners[manner].Right;
            var before = position == 0 ? state with { Rolls = RollsAtFirst(style, manner, pattern, all) } : state;
            for (var e = 0; e < RightEvent.All.Length; e++)
            {
                var happening = RightEvent.All[e];
                var again = before.Tired & happening.FingerMask;
                if (again != 0 && !(price.MayPluckTwice && HasRested(before, step)))
                    continue;
                if (step.IsBetween && !happening.IsSilent && (step.IsFast || happening.IsPinch))
                    continue;
                var left = RollsLeft(before.Rolls, happening, rolls, step);
                var breaks = price.AsksRoll && pattern.IsFull && left == 0 && before.Rolls != 0;
                var sum = new Sum();
                price.Of(ref sum, before, happening, breaks, step);
                if (position == 0 && pattern.IsFull)
                    price.OfBar(ref sum);
                yield return new(
                    RightEvent.Row(manner, e),
                    after.Of(After(before, happening, left, manner, step)),
                    sum.Total
                );
            }
        }
    }

    // A whole step has gone by since the finger plucked. Who played before a bar line on short steps is not told apart there.
    private static bool HasRested(RightState before, BarPattern.Step step) =>
        !step.IsBetween && before.Older == 0 && BitOperations.IsPow2(before.Last);

    private static int RollsAtFirst(Style style, int manner, BarPattern pattern, int all) =>
        style.Manners[manner].Right.AsksRoll && pattern.IsFull ? all : 0;

    // States with the same ways on are one: which rolls are still open matters only where they differ from here.
    private static void Merge(Layer[] layers, int position)
    {
        var layer = layers[position];
        var kept = new List<int>();
        var classOf = new int[layer.States.Length];
        var known = new Dictionary<(SlurWay Slur, int String, int Manner, int Hash), List<int>>();
        for (var r = 0; r < classOf.Length; r++)
        {
            var slur = layer.Slurs[r];
            var hash = new HashCode();
            foreach (var way in layer.Ways[r])
                hash.Add(way);
            var sign = (slur, slur.IsPossible ? layer.States[r].String : 0, layer.States[r].Manner, hash.ToHashCode());
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
            [.. kept.Select(r => layer.Slurs[r])]
        );
        var before = layers[position - 1];
        layers[position - 1] = new(
            before.States,
            [.. before.Ways.Select(ways => ways.Select(way => way with { Next = classOf[way.Next] }).ToArray())],
            [.. before.Slurs.Select(slur => slur.IsPossible ? slur with { Next = classOf[slur.Next] } : slur)]
        );
    }

    private static RightState After(
        RightState before,
        RightEvent happening,
        int rolls,
        int manner,
        BarPattern.Step step
    )
    {
        var older = step.Holds ? before.Last : 0;
        if (happening.IsSilent)
            // A step between that nothing happens at leaves the hand as it was; but the left hand may have moved meanwhile,
            // so that no slur starts from the string any more.
            return step is { IsBetween: true, Holds: true } ? before with { Manner = manner, Older = 0, Rings = false }
                : step.IsBetween ? before with { Manner = manner, Last = 0, Older = 0, Earlier = 0, Rings = false }
                : new(manner, rolls, step.Holds ? before.Last : 0);
        if (happening.IsPinch)
            return new(manner, rolls, happening.FingerMask, older);
        return new(
            manner,
            rolls,
            happening.FingerMask,
            older,
            happening.Plucks[0].String,
            happening.Plucks[0].String != Neck.ShortString,
            rolls == 0 && before.String != 0 ? before.Last : 0
        );
    }

    private static SlurWay SlurFrom(
        RightState before,
        BarPattern pattern,
        int position,
        ImmutableArray<Roll> rolls,
        Style style,
        StateIndex after
    )
    {
        var step = pattern.Steps[position];
        var price = style.Manners[before.Manner].Right;
        var left = RollsAfterSlur(before.Rolls, rolls, step);
        var sum = new Sum();
        price.OfSlur(ref sum, left == 0 && before.Rolls != 0);
        if (position == 0 && pattern.IsFull)
            price.OfBar(ref sum);
        return new(after.Of(AfterSlur(before with { Rolls = left }, step)), sum.Total);
    }

    // A slur in a step of its own leaves the fingers fresh and its string free, but which finger played is not forgotten;
    // one within a step goes on ringing.
    private static RightState AfterSlur(RightState before, BarPattern.Step step) =>
        step.IsBetween
            ? before with
            {
                Last = step.Holds ? before.Last : 0,
                Older = 0,
                Earlier = 0,
            }
            : new(before.Manner, before.Rolls, step.Holds ? before.Last : 0, Earlier: before.Last);

    // Silence keeps every roll open: the hand goes on in time and leaves one note out.
    private static int RollsLeft(int open, RightEvent happening, ImmutableArray<Roll> rolls, BarPattern.Step step)
    {
        if (happening.IsSilent || open == 0)
            return open;
        if (happening.IsPinch || step.IsBetween)
            return 0;
        var left = 0;
        for (var roll = 0; roll < rolls.Length; roll++)
        {
            if ((open & (1 << roll)) != 0 && rolls[roll].FingerAt(step.Main) == happening.Plucks[0].Finger)
                left |= 1 << roll;
        }
        return left;
    }

    // A slur may stand where the roll has index or middle; the thumb carries the roll (common practice, no source).
    private static int RollsAfterSlur(int open, ImmutableArray<Roll> rolls, BarPattern.Step step)
    {
        if (step.IsBetween)
            return open;
        var left = open;
        for (var roll = 0; roll < rolls.Length; roll++)
        {
            if (rolls[roll].FingerAt(step.Main) == RightFinger.T)
                left &= ~(1 << roll);
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

    /// <summary>States in order of their first mention; after the last step the rolls are forgotten.</summary>
    private sealed class StateIndex
    {
        private readonly List<RightState> states;
        private readonly Dictionary<RightState, int> index = [];
        private readonly bool isLast;

        public StateIndex(ImmutableArray<RightState> known)
        {
            states = [.. known];
            isLast = !known.IsEmpty;
            for (var i = 0; i < known.Length; i++)
                index[known[i]] = i;
        }

        public ImmutableArray<RightState> States => [.. states];

        private static RightState AtBarLine(RightState state) =>
            new(
                state.Manner,
                0,
                state.Tired,
                0,
                state.Rings || state.String == Neck.ShortString ? state.String : 0,
                state.Rings
            );

        public int Of(RightState state)
        {
            if (isLast)
                state = AtBarLine(state);
            if (!index.TryGetValue(state, out var found))
            {
                if (isLast)
                    throw new InvalidOperationException($"{state} is no state in which a bar begins.");
                index[state] = found = states.Count;
                states.Add(state);
            }
            return found;
        }
    }
}
