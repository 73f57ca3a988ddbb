using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Settings;
using Rollwright.Music.Pitches;

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

    /// <summary>Notes of the strokes from an index up to another, from low to high.</summary>
    public ImmutableArray<WrittenNote> Spell(BreakBar bar, int first, int after)
    {
        var pitches = new List<(Pitch Pitch, int Stroke)>();
        for (var i = first; i < after; i++)
        {
            var midi = setting.Tuning.KeyOf(bar.Strokes[i].String, bar.Strokes[i].Fret) + Octave;
            pitches.Add((Pitch.FromMidi(midi, setting.Position.Spell(midi)), i));
        }
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
