using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Licks;

/// <summary>Licks of a bank that are played in a break, note for note: the longest first, none over another.</summary>
public static class LickSpotter
{
    /// <summary>Fewer notes are in every break by chance (assumption).</summary>
    public const int FewestNotes = 5;

    // Half steps are what licks are written in.
    private readonly record struct Note(int At, int String, int Fret);

    /// <returns>By place; empty where none is played.</returns>
    public static ImmutableArray<Span> Of(Break played, LickBank bank)
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(bank);
        var half = played.Time.Step / new Fraction(2);
        var (notes, starts) = Lay(played, half);
        var taken = new HashSet<int>();
        var spans = new List<Span>();
        var licks = bank
            .Licks.Where(lick =>
                lick.IsInThrees == played.Time.IsCompound
                && lick.Tuning.Open.Take(4).SequenceEqual(played.Setting.Tuning.Open.Take(4))
                && lick.Notes.Length >= FewestNotes
            )
            .OrderByDescending(lick => lick.Notes.Length);
        foreach (var lick in licks)
        {
            HashSet<Note> wanted = [.. lick.Notes.Select(note => new Note(note.At, note.String, note.Fret))];
            for (var bar = 0; bar < starts.Length; bar++)
            for (var beat = Fraction.Zero; beat < played.Bars[bar].Length; beat += played.Time.Beat)
            {
                var from = starts[bar] + (int)(beat / half).Floor();
                var places = Enumerable.Range(from, 2 * lick.Length);
                if (places.Any(taken.Contains))
                    continue;
                var sounding = places
                    .SelectMany(place => notes[place].Select(note => note with { At = note.At - from }))
                    .ToList();
                if (sounding.Count != wanted.Count || !wanted.SetEquals(sounding))
                    continue;
                taken.UnionWith(places);
                var kind = lick.Role == LickRole.Tag ? SpanKind.Tag : SpanKind.Lick;
                spans.Add(new(kind, lick.Name, bar, beat, played.Time.Step * lick.Length));
            }
        }
        return [.. spans.OrderBy(span => span.Bar).ThenBy(span => span.At)];
    }

    // Every note at its half step from the beginning of the break; what stands between half steps is in no lick.
    private static (ILookup<int, Note> Notes, int[] Starts) Lay(Break played, Fraction half)
    {
        var (notes, starts, from) = (new List<Note>(), new List<int>(), Fraction.Zero);
        foreach (var bar in played.Bars)
        {
            starts.Add((int)(from / half).Floor());
            foreach (var stroke in bar.Strokes)
                notes.Add(new((int)((from + stroke.At) / half).Floor(), stroke.String, stroke.Fret));
            from += bar.Length;
        }
        return (notes.ToLookup(note => note.At), [.. starts]);
    }
}
