using Rollwright.Music.Chords;
using Rollwright.Music.Keys;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// The 24 major and minor triads, numbered from a note that they are seen from: twice the semitones of the root above
/// that note, one more for minor. Seen from the tonic, 0 is I, 1 is i, 14 is V, 19 is vi.
/// </summary>
internal static class Triad
{
    public const int Count = 24;

    /// <summary>The triad's number seen from a note that lies higher by some semitones (0–11).</summary>
    public static int SeenFrom(int triad, int semitones) => ((triad - (2 * semitones)) + Count) % Count;

    /// <summary>The triad that a chord symbol is counted as; null for diminished and augmented ones.</summary>
    public static int? Of(Chord chord, int tonic)
    {
        var root = (((chord.Root.PitchClass - tonic) % 12) + 12) % 12;
        return ChordAgreement.Kind(chord.Quality) switch
        {
            ChordQuality.Major => 2 * root,
            ChordQuality.Minor => (2 * root) + 1,
            _ => null,
        };
    }

    public static Chord Chord(int triad, Key key) =>
        new(
            key.Spell(key.Tonic.PitchClass + (triad / 2)),
            triad % 2 == 0 ? ChordQuality.Major : ChordQuality.Minor
        );
}
