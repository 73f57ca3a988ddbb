using Rollwright.Banjo.Strokes;

namespace Rollwright.Lessons.Words;

/// <summary>
/// Says what happens at one time: "thumb 3", "middle 1 at fret 2", "pinch thumb 5 with index 2 and middle 1", "hammer the
/// middle finger onto string 3 at fret 2". The short form leaves out what the tab shows.
/// </summary>
internal static class SlotWords
{
    /// <summary>With every string and fret.</summary>
    public static string Long(Slot slot)
    {
        var slurs = string.Join(" and ", slot.Slurs.Select(slur => Long(slot, slur)));
        var words =
            slot.Plucks.IsEmpty ? slurs
            : slurs.Length == 0 ? Plucked(slot, LongPluck)
            : $"{Plucked(slot, LongPluck)} and with it {slurs}";
        return slot.AtOnce.IsEmpty
            ? words
            : $"{words} and at once {string.Join(" and ", slot.AtOnce.Select(slur => Long(slot, slur)))}";
    }

    /// <summary>Without the frets that the left hand holds.</summary>
    public static string Short(Slot slot)
    {
        var slurs = string.Join(" and ", slot.Slurs.Select(Short));
        var words =
            slot.Plucks.IsEmpty ? slurs
            : slurs.Length == 0 ? Plucked(slot, ShortPluck)
            : $"{Plucked(slot, ShortPluck)} and with it {slurs}";
        return slot.AtOnce.IsEmpty ? words : $"{words} and at once {string.Join(" and ", slot.AtOnce.Select(Short))}";
    }

    /// <summary>"3", "3 (and at once slide 3 to 4)".</summary>
    public static string ShortOfRoll(Slot slot) =>
        slot.AtOnce.IsEmpty
            ? $"{slot.Plucks[0].String}"
            : $"{slot.Plucks[0].String} (and at once {string.Join(" and ", slot.AtOnce.Select(Short))})";

    /// <summary>"hammer 3 to 2", each slur by itself.</summary>
    public static IEnumerable<string> Slurs(Slot slot) => slot.Slurs.Concat(slot.AtOnce).Select(Short);

    private static string Plucked(Slot slot, Func<Stroke, string> say) =>
        slot.Plucks.Length == 1
            ? say(slot.Plucks[0])
            : $"pinch {say(slot.Plucks[0])} with {string.Join(" and ", slot.Plucks.Skip(1).Select(say))}";

    private static string LongPluck(Stroke stroke) => ShortPluck(stroke) + AtFret(stroke);

    private static string ShortPluck(Stroke stroke) =>
        $"{(stroke.Right is { } finger ? HandNames.Of(finger) : "pluck")} {stroke.String}";

    private static string AtFret(Stroke stroke) => stroke.Fret == 0 ? "" : $" at fret {stroke.Fret}";

    private static string Long(Slot slot, Stroke slur)
    {
        var (on, fret) = ($"string {slur.String}", HandNames.Fret(slur.Fret));
        if (slot.MotionOf(slur)?.Places[0].Finger is not { } known)
            return $"{HandNames.Verb(slur.Slur!.Value)} {on} {(slur.Slur == SlurKind.Choke ? "at" : "to")} {fret}";
        var finger = HandNames.TheLeft(known);
        return slur.Slur switch
        {
            SlurKind.HammerOn => $"hammer {finger} onto {on} at {fret}",
            SlurKind.PullOff => $"pull {finger} off {on} to {fret}",
            _ => $"slide {finger} on {on} to {fret}",
        };
    }

    private static string Short(Stroke slur) =>
        $"{HandNames.Verb(slur.Slur!.Value)} {slur.String}{(slur.Slur == SlurKind.Choke ? "" : slur.Fret == 0 ? " to open" : $" to {slur.Fret}")}";
}
