using System.Collections.Immutable;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Engraving.Notation;

/// <summary>
/// Spells the notes of one bar in the key of the position, as the hands know it: without the capo, an octave above
/// the sound (common practice, and the clef says so). An accidental holds for its line until the bar's end.
/// </summary>
internal sealed class Spelling(Setting setting)
{
    private const int Octave = 12;

    // Staff step of B4, the middle line of the treble clef.
    private const int MiddleLine = (7 * 4) + (int)Letter.B;

    private readonly Dictionary<int, int> alters = [];

    /// <summary>The MIDI key that is written for a stroke.</summary>
    public static int KeyOf(Setting setting, Stroke stroke) =>
        setting.Tuning.KeyOf(stroke.String, stroke.Fret) + Octave;

    /// <summary>The MIDI key that is written for a note of the tune.</summary>
    public static int KeyOf(Setting setting, Note note) => note.Pitch.Midi + setting.Shift - setting.Capo + Octave;

    /// <summary>Notes that are struck together, from low to high.</summary>
    public ImmutableArray<WrittenNote> Spell(ReadOnlySpan<Sounded> notes)
    {
        var pitches = new List<(Pitch Pitch, int Stroke)>();
        foreach (var note in notes)
            pitches.Add((Pitch.FromMidi(note.Key, setting.Position.Spell(note.Key)), note.Index));
        pitches.Sort((a, b) => (a.Pitch.StaffStep, b.Stroke).CompareTo((b.Pitch.StaffStep, a.Stroke)));
        return [.. pitches.Select(item => Write(item.Pitch, item.Stroke))];
    }

    private WrittenNote Write(Pitch pitch, int stroke)
    {
        var current = alters.GetValueOrDefault(pitch.StaffStep, setting.Position.AlterOf(pitch.Name.Letter));
        alters[pitch.StaffStep] = pitch.Name.Alter;
        return new(pitch.StaffStep - MiddleLine, current == pitch.Name.Alter ? null : pitch.Name.Alter, stroke);
    }
}
