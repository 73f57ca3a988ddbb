using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Rolls;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>
/// Says what sounds in a bar: a roll by its name, and the notes beat group by beat group, evenly, one note a step; where a note
/// is held longer the next one has its own count.
/// </summary>
internal sealed class RightHandWords(Break played, Counting counting)
{
    /// <summary>"Right hand: the forward roll." with its strings in the short form; empty where the bar is no roll.</summary>
    public (string Short, string Long) Roll(int bar, ImmutableArray<Slot> slots)
    {
        if (slots.IsEmpty)
            return ("Rest.", "Right hand: rest.");
        if (RollOf(bar, slots) is not { } roll)
            return ("", "");
        var name = NameOf(roll.Name);
        return ($"Right: {name}, {string.Join(" ", slots.Select(SlotWords.ShortOfRoll))}.", $"Right hand: the {name}.");
    }

    /// <summary>"Count 1: thumb 3, index 2; count 1-a: middle 1."</summary>
    /// <param name="bar">Index of the written bar.</param>
    /// <param name="group">Slots of one beat group.</param>
    /// <param name="next">Whole notes from the start of the bar to what sounds next, or to its end.</param>
    public (string Short, string Long) Of(int bar, ImmutableArray<Slot> group, Fraction next)
    {
        var stretches = Stretches(bar, group);
        var (brief, full) = (new List<string>(), new List<string>());
        for (var i = 0; i < stretches.Count; i++)
        {
            var (at, stretch) = (counting.Of(bar, stretches[i][0].At), stretches[i]);
            var until = i + 1 < stretches.Count ? stretches[i + 1][0].At : next;
            // After a note of two steps or more one waits; whether it rings or is damped is not the count's to say.
            var waits = until - stretch[^1].At > played.Bars[bar].Time.Step ? ", then wait" : "";
            brief.Add($"{at}: {string.Join(", ", stretch.Select(SlotWords.Short))}");
            full.Add($"count {at}: {string.Join(", ", stretch.Select(SlotWords.Long))}{waits}");
        }
        return ($"{string.Join("; ", brief)}.", $"C{string.Join("; ", full)[1..]}.");
    }

    /// <summary>"Forward roll." Empty where the bar is none.</summary>
    public string BriefRoll(int bar, ImmutableArray<Slot> slots) =>
        !slots.IsEmpty && RollOf(bar, slots) is { } roll ? Ended(NameOf(roll.Name)) : "";

    /// <summary>"Hammer 3 to 2." Empty where no slur is among them.</summary>
    public static string BriefSlurs(ImmutableArray<Slot> slots) =>
        Ended(string.Join(", ", slots.SelectMany(SlotWords.Slurs).Distinct()));

    private static string Ended(string words) =>
        words.Length > 0 ? $"{char.ToUpperInvariant(words[0])}{words[1..]}." : "";

    // As long as a note stands on every step.
    private List<ImmutableArray<Slot>> Stretches(int bar, ImmutableArray<Slot> group)
    {
        var stretches = new List<ImmutableArray<Slot>>();
        foreach (var slot in group)
        {
            if (stretches.Count > 0 && slot.At - stretches[^1][^1].At == played.Bars[bar].Time.Step)
                stretches[^1] = stretches[^1].Add(slot);
            else
                stretches.Add([slot]);
        }
        return stretches;
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
