using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving.Labels;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Plan;

/// <summary>The chords of a break as the fingers lie for them.</summary>
internal static class ChordWords
{
    /// <summary>"C: index finger on string 2 at fret 1, …", a line for each chord that has a shape in the tuning.</summary>
    public static ImmutableArray<string> Of(Break played) =>
        [
            .. played
                .Bars.SelectMany(bar => bar.Chords)
                .Select(chord => chord.Chord)
                .Distinct()
                .Select(chord => (Chord: chord, Diagram: ShapeChoice.For(played.Setting.Tuning, chord)))
                .Where(one => one.Diagram is not null)
                .Select(one => $"{one.Chord}: {Fingers(one.Diagram!)}."),
        ];

    // From string 4 to string 1, as the shape has them.
    private static string Fingers(DiagramShape shape)
    {
        var places = Enumerable
            .Range(0, shape.Frets.Length)
            .Where(i => shape.Frets[i] > 0)
            .Select(i =>
                $"{HandNames.OfLeft(shape.Fingers[i] == 0 ? null : shape.Fingers[i])} on string {shape.Frets.Length - i} at fret {shape.Frets[i]}"
            )
            .ToList();
        return places.Count == 0 ? "all strings open" : Counting.Listed(places);
    }
}
