using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Licks;

/// <summary>Writes the one-line tab that <see cref="LickTab"/> reads; usual fingers are left out.</summary>
public static class LickTabWriter
{
    public static string Write(ImmutableArray<LickStep> steps) => string.Join(' ', steps.Select(Token));

    private static string Token(LickStep step) =>
        step.IsRest ? "-"
        : step.Slur is { } slur ? Slur(slur)
        // From the low side to the high, as a pinch is spoken.
        : string.Join('+', step.Plucks.Reverse().Select(Note)) + (step.HalfSlur is { } half ? Slur(half) : "");

    private static string Note(LickNote note) => $"{note.String}.{note.Fret}{note.Right}{Finger(note.Fret, note.Left)}";

    private static string Slur(LickSlur slur) =>
        SlurNames.Letter(slur.Kind)
        + $"{slur.Fret}"
        + (slur.Kind == SlurKind.Slide ? "" : Finger(slur.Fret, slur.Left));

    private static string Finger(int fret, int left) =>
        left == 0 || left == LickTab.UsualFinger(fret) ? "" : $":{left}";
}
