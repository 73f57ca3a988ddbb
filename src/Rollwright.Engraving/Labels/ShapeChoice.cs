using System.Collections.Immutable;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Engraving.Labels;

/// <summary>Frets and fingers of a chord for a diagram, strings 4-3-2-1.</summary>
/// <param name="Frets">0 for open.</param>
/// <param name="Fingers">1 index to 4 little, 0 where none is or none is known.</param>
public sealed record DiagramShape(ImmutableArray<int> Frets, ImmutableArray<int> Fingers);

/// <summary>
/// The shape that a diagram shows for a chord: in open G the open one of the shape table, else the lowest movable one; in
/// other tunings the lowest frets that sound nothing but the chord, as many of its tones as can be, and its root.
/// </summary>
public static class ShapeChoice
{
    // Four fingers at the nut reach these without stretching (common practice).
    private const int HighestFret = 4;

    private static readonly Tuning OpenG = TuningTable.Find("open-g")!;

    /// <returns>Null where no shape has the chord's root.</returns>
    public static DiagramShape? For(Tuning tuning, Chord chord)
    {
        if (Enumerable.Range(1, 4).All(s => tuning.KeyOf(s, 0) == OpenG.KeyOf(s, 0)) && FromTable(chord) is { } shape)
            return shape;
        return Lowest(tuning, chord);
    }

    private static DiagramShape? FromTable(Chord chord)
    {
        var found = ChordShapeTable
            .All.Where(item =>
                item.Chord.Root.PitchClass == chord.Root.PitchClass && item.Chord.Quality == chord.Quality
            )
            .OrderBy(item => item.IsMovable)
            .ThenBy(item => item.Shape.HighestFret)
            .FirstOrDefault();
        return found is null
            ? null
            : new([.. Strings.Select(s => found.Shape.FretOn(s))], [.. Strings.Select(s => found.Shape.FingerOn(s))]);
    }

    private static DiagramShape? Lowest(Tuning tuning, Chord chord)
    {
        var choices = Strings
            .Select(s =>
                Enumerable
                    .Range(0, HighestFret + 1)
                    .Where(fret => chord.PitchClasses.Contains(tuning.KeyOf(s, fret) % 12))
                    .ToList()
            )
            .ToList();
        var all =
            from four in choices[0]
            from three in choices[1]
            from two in choices[2]
            from one in choices[3]
            let frets = (int[])[four, three, two, one]
            let tones = frets.Select((fret, i) => tuning.KeyOf(Strings[i], fret) % 12).ToHashSet()
            where tones.Contains(chord.Root.PitchClass)
            orderby tones.Count descending, frets.Sum(), four
            select frets;
        return all.FirstOrDefault() is { } best ? new([.. best], [0, 0, 0, 0]) : null;
    }

    private static ImmutableArray<int> Strings { get; } = [4, 3, 2, 1];
}
