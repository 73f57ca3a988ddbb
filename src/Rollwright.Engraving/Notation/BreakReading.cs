using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Notation;

/// <summary>Turns a break into bars as they are written down.</summary>
internal static class BreakReading
{
    public static ImmutableArray<WrittenBar> Read(Break played)
    {
        var bars = ImmutableArray.CreateBuilder<WrittenBar>(played.Bars.Length);
        var numbering = played.Numbering;
        for (var i = 0; i < played.Bars.Length; i++)
        {
            var bar = played.Bars[i];
            var offset = numbering[i].Missing;
            var moments = Beaming.Join(Moments(bar, offset, new Spelling(played.Setting)), offset, bar.Time);
            bars.Add(new(i, bar, numbering.AtLineStart(i), offset, moments));
        }
        return bars.ToImmutable();
    }

    private static List<WrittenMoment> Moments(BreakBar bar, Fraction offset, Spelling spelling)
    {
        var moments = new List<WrittenMoment>();
        var now = Fraction.Zero;
        var first = 0;
        while (first < bar.Strokes.Length)
        {
            var at = bar.Strokes[first].At;
            var after = first;
            while (after < bar.Strokes.Length && bar.Strokes[after].At == at)
                after++;
            var next = after < bar.Strokes.Length ? bar.Strokes[after].At : bar.Length;
            var length = Fraction.Min(Longest(bar.Strokes.AsSpan()[first..after]), next - at);
            if (at > now)
                AddRests(moments, now, at - now, offset, bar.Time);
            AddNotes(moments, bar, first, after, length, offset, spelling);
            now = at + length;
            first = after;
        }
        if (now < bar.Length)
            AddRests(moments, now, bar.Length - now, offset, bar.Time);
        return moments;
    }

    private static Fraction Longest(ReadOnlySpan<Stroke> strokes)
    {
        var longest = Fraction.Zero;
        foreach (var stroke in strokes)
            longest = Fraction.Max(longest, stroke.Length);
        return longest;
    }

    private static void AddNotes(
        List<WrittenMoment> moments,
        BreakBar bar,
        int first,
        int after,
        Fraction length,
        Fraction offset,
        Spelling spelling
    )
    {
        var notes = spelling.Spell(bar, first, after);
        var at = bar.Strokes[first].At;
        var continues = false;
        foreach (var (value, duration, triplet) in Values(at + offset, length, bar.Time))
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
