using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Rolls;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>
/// Says what the right hand does in a bar, with the slurs among it: a roll by its name with the strings it goes over, other
/// bars in stretches of a beat group, evenly, one note a step; where a note is held longer the next stretch has its own count.
/// </summary>
internal sealed class RightHandWords(Break played, Counting counting, SlurSources sources)
{
    public (string Short, string Long) Of(int bar, ImmutableArray<Slot> slots)
    {
        var words = new SlotWords(bar, sources);
        if (slots.IsEmpty)
            return ("Rest.", "Right hand: rest.");
        if (RollOf(bar, slots) is { } roll)
        {
            var name = NameOf(roll.Name);
            return (
                $"Right: {name}, {string.Join(" ", slots.Select(SlotWords.ShortOfRoll))}.",
                $"Right hand: the {name}; {Spoken()}."
            );
        }
        return (
            $"Right: {string.Join("; ", Stretches(bar, slots).Select(stretch => $"{counting.Of(bar, stretch[0].At)}: {string.Join(", ", stretch.Select(SlotWords.Short))}"))}.",
            $"Right hand: {Spoken()}."
        );

        string Spoken() => string.Join("; ", Stretches(bar, slots).Select(stretch => Long(bar, stretch, slots, words)));
    }

    /// <summary>"Forward roll." "Hammer on 3 to 2." Empty where the bar is no roll and has no slur.</summary>
    public string Brief(int bar, ImmutableArray<Slot> slots)
    {
        var words =
            !slots.IsEmpty && RollOf(bar, slots) is { } roll
                ? NameOf(roll.Name)
                : string.Join(", ", slots.SelectMany(SlotWords.Slurs).Distinct());
        return words.Length > 0 ? $"{char.ToUpperInvariant(words[0])}{words[1..]}." : "";
    }

    private string Long(int bar, ImmutableArray<Slot> stretch, ImmutableArray<Slot> slots, SlotWords words)
    {
        var at = $"{(stretch.Length == 1 ? "on" : "from")} {counting.Of(bar, stretch[0].At)}:";
        var next = slots.IndexOf(stretch[^1]) + 1;
        var until = next < slots.Length ? slots[next].At : played.Bars[bar].Length;
        // After a note of two steps or more one waits; whether it rings or is damped is not the count's to say.
        var rings = until - stretch[^1].At > played.Bars[bar].Time.Step ? ", then wait" : "";
        return $"{at} {string.Join(", ", stretch.Select(words.Long))}{rings}";
    }

    // Within a beat group, as long as a note stands on every step.
    private List<ImmutableArray<Slot>> Stretches(int bar, ImmutableArray<Slot> slots)
    {
        var time = played.Bars[bar].Time;
        var missing = counting.MissingBefore(bar);
        var stretches = new List<ImmutableArray<Slot>>();
        foreach (var slot in slots)
        {
            if (
                stretches.Count > 0
                && slot.At - stretches[^1][^1].At == time.Step
                && GroupOf(slot) == GroupOf(stretches[^1][0])
            )
                stretches[^1] = stretches[^1].Add(slot);
            else
                stretches.Add([slot]);
        }
        return stretches;

        long GroupOf(Slot slot) => ((slot.At + missing) / time.BeamGroup).Floor();
    }

    // The name is taken from the break, and only where every step of the bar is plucked as the roll has it.
    private Roll? RollOf(int bar, ImmutableArray<Slot> slots)
    {
        var step = played.Bars[bar].Time.Step;
        return played
            .Spans.Where(span => span.Kind == SpanKind.Roll && span.Bar == bar && span.At == Fraction.Zero)
            .Select(span => RollTable.All.FirstOrDefault(roll => roll.Name == span.Name))
            .FirstOrDefault(roll =>
                roll is not null
                && step * slots.Length == played.Bars[bar].Length
                && slots
                    .Select(
                        (slot, i) =>
                            slot.At == step * i
                            && slot.Slurs.IsEmpty
                            && slot.Plucks is [{ Right: { } finger }]
                            && finger == roll.FingerAt(i)
                    )
                    .All(same => same)
            );
    }

    /// <summary>"forward roll", "forward roll, thumb start".</summary>
    /// <param name="roll">The roll's name in the data.</param>
    public static string NameOf(string roll)
    {
        var comma = roll.IndexOf(',', StringComparison.Ordinal);
        return comma < 0 ? $"{roll} roll" : $"{roll[..comma]} roll{roll[comma..]}";
    }
}
