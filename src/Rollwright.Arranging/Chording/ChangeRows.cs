using System.Collections.Immutable;

namespace Rollwright.Arranging.Chording;

/// <summary>What speaks for a new chord at a beat, whichever: the rows of <c>data/harmony-changes.txt</c>.</summary>
internal static class ChangeRows
{
    private const int Phrase = 8;
    private const int BeatsNamed = 6;
    private const int Densities = 5;

    private static readonly string[] Weights = ["start of the bar", "half of the bar", "another beat"];
    private static readonly List<string> Listed = [];

    private static readonly int MetreAt = Add(
        from metre in BeatPlace.Metres
        from beat in Enumerable.Range(1, BeatsNamed)
        select $"{metre}, beat {beat}"
    );
    private static readonly int BarAt = Add(
        from bar in Enumerable.Range(0, Phrase + 1)
        from weight in Weights
        select bar == 0 ? $"pickup, {weight}" : $"bar {bar} of {Phrase}, {weight}"
    );
    private static readonly int EndAt = Add(
        from end in new[] { "the part's last bar", "the part's last bar but one" }
        from weight in Weights
        select $"{end}, {weight}"
    );
    private static readonly int DensityAt = Add(
        from density in Enumerable.Range(0, Densities)
        from weight in Weights
        select $"{Bound(density)} notes a beat, {weight}"
    );

    public static ImmutableArray<string> Names => [.. Listed];

    public static int Count => Listed.Count;

    public static int Metre(BeatPlace place) =>
        MetreAt + (place.Metre * BeatsNamed) + Math.Min(place.Number, BeatsNamed - 1);

    public static int Bar(int fromStart, BeatWeight weight) =>
        BarAt + ((fromStart < 0 ? 0 : 1 + (fromStart % Phrase)) * Weights.Length) + (int)weight;

    public static int End(int toEnd, BeatWeight weight) => EndAt + (toEnd * Weights.Length) + (int)weight;

    /// <param name="notesPerBeat">Mean of the whole tune.</param>
    /// <param name="weight">How the bar leans on the beat.</param>
    public static int Density(double notesPerBeat, BeatWeight weight) =>
        DensityAt + (Math.Clamp((int)(notesPerBeat * 2) - 1, 0, Densities - 1) * Weights.Length) + (int)weight;

    // Steps of half a note a beat.
    private static string Bound(int density) =>
        density == 0 ? "fewer than 1"
        : density == Densities - 1 ? $"{(density + 1) / 2.0} or more"
        : $"{(density + 1) / 2.0} to {(density + 2) / 2.0}";

    private static int Add(IEnumerable<string> names)
    {
        var at = Listed.Count;
        Listed.AddRange(names);
        return at;
    }
}
