using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Lessons.Drills;

/// <summary>What the right hand does in a break, on open strings.</summary>
public static class RightHandAlone
{
    /// <summary>The same plucks at the same times without the left hand; slurred notes are silent, names of licks go.</summary>
    public static Break Of(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        return played with { Bars = [.. played.Bars.Select(OpenStrings)], Spans = [] };
    }

    private static BreakBar OpenStrings(BreakBar bar)
    {
        var plucked = bar.Strokes.Where(stroke => stroke.Right is not null).ToList();
        var strokes = ImmutableArray.CreateBuilder<Stroke>(plucked.Count);
        foreach (var stroke in plucked)
        {
            var next = plucked.Find(later => later.At > stroke.At)?.At ?? bar.Length;
            strokes.Add(
                stroke with
                {
                    Fret = 0,
                    Left = null,
                    Slur = null,
                    IsMelody = false,
                    Length = next - stroke.At,
                }
            );
        }
        return bar with { Strokes = strokes.MoveToImmutable() };
    }
}
