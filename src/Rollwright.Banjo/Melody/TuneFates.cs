using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Banjo.Melody;

/// <summary>Follows each note of the tune into the break: what is kept of it, what is moved, what is left out.</summary>
public static class TuneFates
{
    /// <summary>
    /// For each note of a written bar of the tune, in order; empty where the break does not hold the tune or the bar. A note
    /// that goes on from the note before it shares its fate. Strokes of other bars are not looked at.
    /// </summary>
    /// <param name="played">The break.</param>
    /// <param name="bar">Index of the written bar.</param>
    public static ImmutableArray<NoteFate> Of(Break played, int bar)
    {
        ArgumentNullException.ThrowIfNull(played);
        if (played.Tune is not { } tune || bar >= tune.Bars.Length || bar >= played.Bars.Length)
            return [];
        var fates = ImmutableArray.CreateBuilder<NoteFate>(tune.Bars[bar].Notes.Length);
        var taken = new HashSet<int>();
        foreach (var note in tune.Bars[bar].Notes)
            fates.Add(note.TiedFromBefore && fates.Count > 0 ? fates[^1] : FateOf(played, bar, note, taken));
        return fates.MoveToImmutable();
    }

    private static NoteFate FateOf(Break played, int bar, Note note, HashSet<int> taken)
    {
        var strokes = played.Bars[bar].Strokes;
        var key = note.Pitch.Midi + played.Setting.Shift;
        var step = played.Bars[bar].Time.Step;
        // A stroke plays one note: what is moved takes none that is another's own.
        var candidates = Enumerable
            .Range(0, strokes.Length)
            .Where(i => !taken.Contains(i))
            .Select(i => (Index: i, Stroke: strokes[i]))
            .ToList();
        if (
            candidates.Find(one => one.Stroke.At == note.At && played.KeyOf(one.Stroke) == key) is
            { Stroke: not null } own
        )
            return Take(own.Index, Fate.Kept);
        var moved = candidates
            .Where(one => IsMoved(played, one.Stroke, note, key, step))
            .OrderBy(one => Distance(one.Stroke.At, note.At))
            .FirstOrDefault();
        return moved.Stroke is null ? new(Fate.LeftOut, null) : Take(moved.Index, Fate.Moved);

        NoteFate Take(int index, Fate fate)
        {
            taken.Add(index);
            return new(fate, new(bar, index));
        }
    }

    // A stroke that carries another note of the tune is that note's.
    private static bool IsMoved(Break played, Stroke stroke, Note note, int key, Fraction step)
    {
        var sounds = played.KeyOf(stroke);
        return stroke.At == note.At
            ? (sounds - key) % 12 == 0
            : sounds == key && Distance(stroke.At, note.At) <= step && !stroke.IsMelody;
    }

    private static Fraction Distance(Fraction one, Fraction other) => one > other ? one - other : other - one;
}
