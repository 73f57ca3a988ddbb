using System.Collections.Concurrent;
using System.Collections.Immutable;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Arranging.Lattice;

/// <summary>The shapes of a chord in a tuning: from the table where the long strings are tuned to it, else worked out.</summary>
public static class ChordShapes
{
    private static readonly ConcurrentDictionary<(Chord, string), ImmutableArray<HandShape>> Known = [];

    /// <summary>Shapes of the chord or of its triad; the open ones first. May be empty for rare chords.</summary>
    public static ImmutableArray<HandShape> For(Chord chord, Tuning tuning) =>
        Known.GetOrAdd((chord with { Bass = null }, tuning.Id), _ => Find(chord with { Bass = null }, tuning));

    private static ImmutableArray<HandShape> Find(Chord chord, Tuning tuning)
    {
        var isTable = tuning.Open.AsSpan(0, 4).SequenceEqual(TuningTable.OpenG.Open.AsSpan(0, 4));
        if (!isTable)
            return WorkOut(chord, tuning);
        return
        [
            .. ChordShapeTable
                .All.Where(shape =>
                    shape.Chord.Root.PitchClass == chord.Root.PitchClass && IsKin(shape.Chord.Quality, chord.Quality)
                )
                .OrderBy(shape => shape.IsMovable)
                .ThenBy(shape => shape.Shape.HighestFret)
                .Select(shape => shape.Shape)
                .Distinct(),
        ];
    }

    // A seventh may be played as its triad, and a triad with its seventh where the chord asks for one.
    private static bool IsKin(ChordQuality shape, ChordQuality wanted) =>
        shape == wanted
        || shape == Triad(wanted)
        || (wanted == ChordQuality.Ninth && shape == ChordQuality.DominantSeventh);

    private static ChordQuality Triad(ChordQuality quality) =>
        quality switch
        {
            ChordQuality.DominantSeventh or ChordQuality.MajorSeventh or ChordQuality.Sixth or ChordQuality.Ninth =>
                ChordQuality.Major,
            ChordQuality.MinorSeventh or ChordQuality.MinorSixth => ChordQuality.Minor,
            _ => quality,
        };

    // Every way to put chord tones on all four strings within the first five frets, fewest fingers first.
    private static ImmutableArray<HandShape> WorkOut(Chord chord, Tuning tuning)
    {
        var found = new List<HandShape>();
        var frets = new int[5];
        void Try(int s)
        {
            if (s == 0)
            {
                if (Finger(frets) is { } shape && !shape.IsOpen)
                    found.Add(shape);
                return;
            }
            for (var fret = 0; fret <= 5; fret++)
            {
                if (!chord.Contains(tuning.KeyOf(s, fret)))
                    continue;
                frets[s] = fret;
                Try(s - 1);
            }
        }
        Try(4);
        return [.. found.OrderBy(shape => shape.Count).ThenBy(shape => shape.HighestFret).Take(4)];
    }

    private static HandShape? Finger(int[] frets)
    {
        var notes = Enumerable
            .Range(1, 4)
            .Where(s => frets[s] > 0)
            .OrderBy(s => frets[s])
            .ThenByDescending(s => s)
            .ToArray();
        if (notes.Length == 0)
            return HandShape.Open;
        if (Reach.Between(notes.Select(s => frets[s])) > Reach.Comfortable)
            return null;
        var shape = HandShape.Open;
        var finger = 0;
        foreach (var s in notes)
        {
            finger = Math.Max(finger + 1, Math.Min(4, frets[s]));
            if (finger > 4)
                return null;
            shape = shape.With(s, frets[s], finger);
        }
        return shape;
    }
}
