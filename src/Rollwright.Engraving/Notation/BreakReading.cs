using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Notation;

/// <summary>Turns a break into bars as they are written down.</summary>
internal static class BreakReading
{
    public static ImmutableArray<WrittenBar> Read(Break played) => Read(played, 0, played.Bars.Length - 1);

    /// <summary>Some bars, numbered as in the whole break.</summary>
    public static ImmutableArray<WrittenBar> Read(Break played, int first, int last)
    {
        var numbering = played.Numbering;
        var bars = ImmutableArray.CreateBuilder<WrittenBar>(last - first + 1);
        for (var i = first; i <= last; i++)
        {
            ImmutableArray<Sounded> notes =
            [
                .. played
                    .Bars[i]
                    .Strokes.Select(
                        (stroke, index) =>
                            new Sounded(stroke.At, stroke.Length, Spelling.KeyOf(played.Setting, stroke), index)
                    ),
            ];
            bars.Add(Write(played, i, notes, numbering));
        }
        return bars.ToImmutable();
    }

    /// <summary>What the form of bars is read from.</summary>
    public static ImmutableArray<(BarMarks Marks, bool IsPickup)> FormOf(ImmutableArray<WrittenBar> bars) =>
        [.. bars.Select(bar => (bar.Bar.Marks, bar.IsPickup))];

    /// <summary>One bar of the tune itself, as the hands would know it; null where the break does not hold the tune.</summary>
    public static WrittenBar? ReadTune(Break played, int bar) => ReadTune(played, bar, played.Numbering);

    private static WrittenBar? ReadTune(Break played, int bar, BarNumbering numbering)
    {
        if (played.Tune is not { } tune || bar >= tune.Bars.Length)
            return null;
        return Write(
            played,
            bar,
            [
                .. tune.Bars[bar]
                    .Notes.Select(
                        (note, index) =>
                            new Sounded(
                                note.At,
                                note.Length,
                                Spelling.KeyOf(played.Setting, note),
                                index,
                                note.TiedFromBefore
                            )
                    ),
            ],
            numbering
        );
    }

    /// <summary>Some bars of the tune itself.</summary>
    public static ImmutableArray<WrittenBar> ReadTune(Break played, int first, int last)
    {
        var numbering = played.Numbering;
        return [.. Enumerable.Range(first, last - first + 1).Select(bar => ReadTune(played, bar, numbering)!)];
    }

    private static WrittenBar Write(Break played, int index, ImmutableArray<Sounded> notes, BarNumbering numbering)
    {
        var bar = played.Bars[index];
        var offset = numbering[index].Missing;
        var moments = Beaming.Join(Moments(bar, notes, offset, new Spelling(played.Setting)), offset, bar.Time);
        return new(index, bar, numbering.AtLineStart(index), offset, moments, index + 1 == played.Bars.Length);
    }

    private static List<WrittenMoment> Moments(
        BreakBar bar,
        ImmutableArray<Sounded> notes,
        Fraction offset,
        Spelling spelling
    )
    {
        var moments = new List<WrittenMoment>();
        var now = Fraction.Zero;
        var first = 0;
        while (first < notes.Length)
        {
            var at = notes[first].At;
            var after = first;
            while (after < notes.Length && notes[after].At == at)
                after++;
            var next = after < notes.Length ? notes[after].At : bar.Length;
            var together = notes.AsSpan()[first..after];
            var length = Fraction.Min(Longest(together), next - at);
            if (at > now)
                AddRests(moments, now, at - now, offset, bar.Time);
            AddNotes(moments, bar.Time, together, length, offset, spelling);
            now = at + length;
            first = after;
        }
        if (now < bar.Length)
            AddRests(moments, now, bar.Length - now, offset, bar.Time);
        return moments;
    }

    private static Fraction Longest(ReadOnlySpan<Sounded> notes)
    {
        var longest = Fraction.Zero;
        foreach (var note in notes)
            longest = Fraction.Max(longest, note.Length);
        return longest;
    }

    private static void AddNotes(
        List<WrittenMoment> moments,
        TimeSignature time,
        ReadOnlySpan<Sounded> together,
        Fraction length,
        Fraction offset,
        Spelling spelling
    )
    {
        var notes = spelling.Spell(together);
        var at = together[0].At;
        var continues = together[0].Continues;
        foreach (var (value, duration, triplet) in Values(at + offset, length, time))
        {
            var shown = continues ? [.. notes.Select(note => note with { Accidental = null })] : notes;
            moments.Add(new(at, duration, value, shown, continues, triplet));
            at += duration;
            continues = true;
        }
    }

    private static void AddRests(
        List<WrittenMoment> moments,
        Fraction at,
        Fraction length,
        Fraction offset,
        TimeSignature time
    )
    {
        if (length == time.Bar)
        {
            moments.Add(new(at, length, new(1), []));
            return;
        }
        if (length.Denominator % 3 == 0)
        {
            moments.Add(new(at, length, TripletValue(length), [], Triplet: true));
            return;
        }
        foreach (var value in ValueSplitting.ForRest(at + offset, length, time))
        {
            moments.Add(new(at, value.Length, value, []));
            at += value.Length;
        }
    }

    private static IEnumerable<(NoteValue Value, Fraction Length, bool Triplet)> Values(
        Fraction at,
        Fraction length,
        TimeSignature time
    )
    {
        if (length.Denominator % 3 == 0)
        {
            yield return (TripletValue(length), length, true);
            yield break;
        }
        foreach (var value in ValueSplitting.ForNote(at, length, time))
            yield return (value, Fraction.Min(value.Length, length), false);
    }

    private static NoteValue TripletValue(Fraction length) => NoteValue.UpTo(length * new Fraction(3, 2), 1);
}
