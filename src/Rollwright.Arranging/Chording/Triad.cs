using System.Collections.Immutable;
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

    /// <summary>Roman numerals of the triads seen from the tonic: capitals major, small letters minor.</summary>
    public static ImmutableArray<string> Names { get; } =
    [.. "I bII II bIII III IV bV V bVI VI bVII VII".Split(' ').SelectMany(name => new[] { name, Small(name) })];

    /// <summary>The triad's number seen from a note that lies higher by some semitones (0–11).</summary>
    public static int SeenFrom(int triad, int semitones)
    {
        var seen = triad - (2 * semitones);
        return seen < 0 ? seen + Count : seen;
    }

    /// <summary>The triad that a chord symbol counts as, seen from a pitch class; null for diminished and augmented ones.</summary>
    public static int? Of(Chord chord, int tonic)
    {
        var root = (chord.Root.PitchClass - tonic + 12) % 12;
        return ChordAgreement.Kind(chord.Quality) switch
        {
            ChordQuality.Major => 2 * root,
            ChordQuality.Minor => (2 * root) + 1,
            _ => null,
        };
    }

    /// <summary>The chord symbol, its root spelled as the key spells it.</summary>
    public static Chord Symbol(int triad, Key key) =>
        new(key.Spell(key.Tonic.PitchClass + (triad / 2)), triad % 2 == 0 ? ChordQuality.Major : ChordQuality.Minor);

    private static string Small(string name) => name.Replace('I', 'i').Replace('V', 'v');
}
