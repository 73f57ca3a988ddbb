using Rollwright.Music.Chords;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// How far two people's (or programs') chords of one tune agree, beat by beat: root and kind must be the same.
/// </summary>
/// <remarks>
/// Written beats are counted (a repeat once), from the first chord symbol of the reference on: quarters, or dotted
/// quarters in compound metres. Kinds are folded to triads: sevenths, sixths, ninths, suspended chords and bare fifths
/// count as their major triad, minor sevenths and sixths as minor; diminished kinds are one, augmented is its own. A bass
/// does not count.
/// </remarks>
public static class ChordAgreement
{
    /// <summary>Beats with the same chord, and beats in all.</summary>
    public static (int Same, int All) Count(Tune reference, Tune other)
    {
        var (same, all) = (0, 0);
        foreach (var (theirs, ours) in ByBeat(reference).Zip(ByBeat(other)))
        {
            if (theirs is not { } wanted)
                continue;
            all++;
            if (ours is { } found && IsSame(wanted, found))
                same++;
        }
        return (same, all);
    }

    public static bool IsSame(Chord a, Chord b) =>
        a.Root.PitchClass == b.Root.PitchClass && Kind(a.Quality) == Kind(b.Quality);

    /// <summary>Major, Minor, Diminished or Augmented.</summary>
    public static ChordQuality Kind(ChordQuality quality) =>
        quality switch
        {
            ChordQuality.Minor or ChordQuality.MinorSeventh or ChordQuality.MinorSixth => ChordQuality.Minor,
            ChordQuality.Diminished or ChordQuality.DiminishedSeventh or ChordQuality.HalfDiminished =>
                ChordQuality.Diminished,
            ChordQuality.Augmented => ChordQuality.Augmented,
            _ => ChordQuality.Major,
        };

    /// <summary>The chord in force at each written beat; null before the first symbol.</summary>
    public static IEnumerable<Chord?> ByBeat(Tune tune)
    {
        var chords = tune.ChordsInForce;
        return tune.Bars.SelectMany((bar, i) => BeatGrid.Of(bar).Select(beat => chords.At(i, beat.At)));
    }
}
