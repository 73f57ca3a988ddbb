using System.Collections.Immutable;
using Rollwright.Formats.MusicXml;
using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc.Writing;

/// <summary>One sign of a bar: notes that sound together, the tied rest of them, or a rest.</summary>
/// <param name="At">Whole notes from the start of the bar.</param>
/// <param name="Value">How the length is written; a tuplet's ratio.</param>
/// <param name="Length">Whole notes.</param>
/// <param name="Notes">From the lowest; none for a rest.</param>
/// <param name="GoesOn">Whether the next sign goes on with the same notes.</param>
/// <param name="Chord">The chord symbol in front; null for none.</param>
internal sealed record AbcSign(
    Fraction At,
    Fraction Length,
    NoteValue Value,
    ImmutableArray<Note> Notes,
    bool GoesOn,
    Chord? Chord
)
{
    /// <summary>The signs of a bar; their lengths add up to the bar's. A chord symbol needs a sign to stand at.</summary>
    public static List<AbcSign> Of(TuneBar bar)
    {
        var signs = new List<AbcSign>();
        var now = Fraction.Zero;
        foreach (var group in bar.Notes.Where(note => note.At < bar.Length).GroupBy(note => note.At))
        {
            var end = Fraction.Min(bar.Length, group.Key + group.Max(note => note.Length));
            Add(signs, bar, now, group.Key, []);
            Add(signs, bar, Fraction.Max(now, group.Key), end, [.. group.OrderBy(note => note.Pitch.Midi)]);
            now = Fraction.Max(now, end);
        }
        Add(signs, bar, now, bar.Length, []);
        return signs;
    }

    private static void Add(List<AbcSign> signs, TuneBar bar, Fraction from, Fraction to, ImmutableArray<Note> notes)
    {
        if (from >= to)
            return;
        var cuts = bar.Chords.Select(chord => chord.At).Where(at => at > from && at < to).Append(to).Distinct();
        foreach (var cut in cuts.Order())
        {
            foreach (var (length, value) in NoteValue.Split(from, cut - from, bar.Time.Beat))
            {
                var at = from;
                var chord = bar.Chords.Where(one => one.At == at).Select(one => (Chord?)one.Chord).LastOrDefault();
                from += length;
                signs.Add(new(at, length, value, notes, from < to && !notes.IsEmpty, chord));
            }
        }
    }
}
