using System.Collections.Immutable;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// Finds the key of a tune from its notes, for files that name none. The tonic and its third are the likeliest by what
/// each note's share of the tune, of the bars' first notes, and the last notes say (<c>data/keys.txt</c>, trained); the
/// mode follows from the sixth and seventh that the tune uses.
/// </summary>
public static class KeyFinder
{
    /// <summary>
    /// Major, mixolydian (its seventh is more often minor than major), dorian (a minor third, its sixth more often major
    /// than minor) or minor; the tonic spelled with the fewest signs.
    /// </summary>
    /// <param name="notes">The melody in order of play, see <see cref="Tune.Played"/>; at least one note.</param>
    /// <exception cref="ArgumentException">There is no note.</exception>
    public static Key Of(ImmutableArray<PlayedNote> notes)
    {
        if (notes.IsDefaultOrEmpty)
            throw new ArgumentException("A key is found from notes; give at least one.", nameof(notes));
        var chances = KeyTable.BuiltIn.Chances(KeyEvidence.Of(notes));
        var best = Array.IndexOf(chances, chances.Max());
        return new Key(new PitchName(Letter.C), ModeOf(notes, best / 2, best % 2 == 1)).Transpose(best / 2);
    }

    /// <summary>The same tune in the key that its notes are in, its notes spelled as that key spells them.</summary>
    /// <exception cref="ArgumentException">The tune has no note.</exception>
    public static Tune WithKey(Tune tune)
    {
        var key = Of(tune.Played());
        return tune with
        {
            Key = key,
            Bars =
            [
                .. tune.Bars.Select(bar =>
                    bar with
                    {
                        Key = key,
                        Notes =
                        [
                            .. bar.Notes.Select(note =>
                                note with
                                {
                                    Pitch = Pitch.FromMidi(note.Pitch.Midi, key.Spell(note.Pitch.Name.PitchClass)),
                                }
                            ),
                        ],
                    }
                ),
            ],
        };
    }

    private static Mode ModeOf(ImmutableArray<PlayedNote> notes, int tonic, bool hasMinorThird)
    {
        var shares = new double[12];
        foreach (var note in notes)
            shares[(KeyEvidence.PitchClass(note) - tonic + 12) % 12] += note.Length.ToDouble();
        return hasMinorThird
            ? shares[9] > shares[8]
                ? Mode.Dorian
                : Mode.Minor
            : shares[10] > shares[11]
                ? Mode.Mixolydian
                : Mode.Major;
    }
}
