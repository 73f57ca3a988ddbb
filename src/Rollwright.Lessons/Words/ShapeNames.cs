using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Lessons.Words;

/// <summary>Recognises fingers as a chord shape that players know by name.</summary>
internal sealed class ShapeNames
{
    // The families of movable shapes are called after the chord that each is first learnt as; their fret is the one on string 1,
    // for the D shape the one on string 2 (common practice, no source).
    private const int FShapeRoot = 4;
    private const int DShapeRoot = 2;
    private const int DShapeString = 2;

    private readonly bool hasShapes;

    // The table is of open G; what is tuned otherwise has shapes without names. String 5 takes no part.
    public ShapeNames(Break played) =>
        hasShapes = played.Setting.Tuning.Open.Take(4).SequenceEqual(TuningTable.OpenG.Open.Take(4));

    /// <summary>The shape that some fingers belong to, of the chord that sounds; null where there is none.</summary>
    /// <param name="places">At least two, on different strings.</param>
    /// <param name="chord">The chord in force; null where none is known.</param>
    public NamedShape? Find(IReadOnlyCollection<FingerPlace> places, Chord? chord)
    {
        if (!hasShapes || chord is not { } sounding)
            return null;
        ChordShape? best = null;
        foreach (var shape in ChordShapeTable.All)
        {
            if (
                shape.Chord.Root.PitchClass == sounding.Root.PitchClass
                && places.All(place =>
                    place.String <= 4
                    && shape.Shape.FretOn(place.String) == place.Fret
                    && shape.Shape.FingerOn(place.String) == place.Finger
                )
                && (best is null || shape.Shape.Count < best.Shape.Count)
            )
                best = shape;
        }
        return best is null ? null : new(NameOf(best), places.Count == best.Shape.Count);
    }

    private static string NameOf(ChordShape shape)
    {
        if (!shape.IsMovable)
            return $"{shape.Chord} shape";
        var kind = shape.Chord.Quality switch
        {
            ChordQuality.Minor => "minor ",
            ChordQuality.DominantSeventh => "seventh ",
            _ => "",
        };
        return shape.RootString switch
        {
            FShapeRoot => $"{kind}F shape at fret {shape.Shape.FretOn(1)}",
            DShapeRoot => $"{kind}D shape at fret {shape.Shape.FretOn(DShapeString)}",
            null => $"{kind}D shape at fret {shape.Shape.FretOn(1) - 1}",
            _ => $"{kind}barre shape at fret {shape.Shape.LowestFret}",
        };
    }
}
