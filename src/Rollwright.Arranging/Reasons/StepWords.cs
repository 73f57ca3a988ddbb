using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Reasons;

/// <summary>What the hands do at a step, in words.</summary>
public static class StepWords
{
    /// <summary>"T on string 3, fret 2", "pinch of strings 3 and 1", "slide to fret 4 on string 3", "silence".</summary>
    public static string Of(PathStep done)
    {
        if (done.SlurString is var s and not 0)
            return Slur(done.Slur!.Value, done.Shape.FretOn(s), s);
        var plucks = done.Event.Plucks;
        if (plucks.IsEmpty)
            return "silence";
        if (plucks.Length > 1)
            return $"pinch of {string.Join(" and ", plucks.Select(pluck => $"{pluck.Finger} on string {pluck.String}, {Fret(done.Shape.FretOn(pluck.String))}"))}";
        var (finger, on) = plucks[0];
        var note = $"{finger} on string {on}, {Fret(done.Shape.FretOn(on))}";
        return done.HalfShape is { } half ? $"{note}, {Slur(done.HalfSlur!.Value, half.FretOn(on), on)}" : note;
    }

    private static string Slur(SlurKind kind, int fret, int on) =>
        $"{SlurNames.Word(kind)} to {Fret(fret)} on string {on}";

    private static string Fret(int fret) => fret == 0 ? "open" : $"fret {fret}";
}
