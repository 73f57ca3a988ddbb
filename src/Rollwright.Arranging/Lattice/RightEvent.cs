using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Lattice;

/// <summary>What the right hand does at a step: plucks a string, a pinch of two or three, or nothing.</summary>
/// <param name="Plucks">Finger and string of each pluck; empty for nothing.</param>
public sealed record RightEvent(ImmutableArray<(RightFinger Finger, int String)> Plucks)
{
    /// <summary>
    /// All that the style knows, in a fixed order; the first is silence. Thumb on all strings, index on 4 to 1, middle
    /// on 3 to 1; pinches keep thumb, index, middle in order (common practice, no source).
    /// </summary>
    public static ImmutableArray<RightEvent> All { get; } = Build();

    public static int Silence => 0;

    /// <summary>A style has this many ways of playing at most.</summary>
    public const int MostManners = 2;

    /// <summary>Rows of price tables: every event in every way of playing.</summary>
    public static int MostRows => MostManners * All.Length;

    /// <summary>The row of an event in one of the style's ways of playing.</summary>
    public static int Row(int manner, int happening) => (manner * All.Length) + happening;

    public static int MannerOf(int row) => row / All.Length;

    public static int EventOf(int row) => row % All.Length;

    public bool IsSilent => Plucks.IsEmpty;

    public bool IsPinch => Plucks.Length > 1;

    /// <summary>One bit for each finger that plays.</summary>
    public int FingerMask { get; } = Plucks.Aggregate(0, (mask, pluck) => mask | (1 << (int)pluck.Finger));

    private static ImmutableArray<RightEvent> Build()
    {
        var events = ImmutableArray.CreateBuilder<RightEvent>();
        events.Add(new([]));
        foreach (var s in new[] { 5, 4, 3, 2, 1 })
            events.Add(new([(RightFinger.T, s)]));
        foreach (var s in new[] { 2, 3, 4, 1 })
            events.Add(new([(RightFinger.I, s)]));
        foreach (var s in new[] { 1, 2, 3 })
            events.Add(new([(RightFinger.M, s)]));
        foreach (var s in new[] { 5, 4, 3, 2 })
            events.Add(new([(RightFinger.T, s), (RightFinger.M, 1)]));
        foreach (var s in new[] { 5, 4, 3 })
            events.Add(new([(RightFinger.T, s), (RightFinger.I, 2)]));
        events.Add(new([(RightFinger.I, 2), (RightFinger.M, 1)]));
        foreach (var s in new[] { 5, 4, 3 })
            events.Add(new([(RightFinger.T, s), (RightFinger.I, 2), (RightFinger.M, 1)]));
        return events.ToImmutable();
    }
}
