using System.Collections.Immutable;
using Rollwright.Audio;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Sound;

namespace Rollwright.Web.State.Hearing;

/// <summary>
/// A take for whoever has none at hand: a break as the program sounds it, with two slips, a note left out and a fret beside
/// another. It is no recording, and is said to be none.
/// </summary>
public static class DemoTake
{
    public const string Name = "demo take, sounded by the program";

    public static Samples Sound(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        return Synth.Render(WithSlips(played));
    }

    /// <summary>The same break with a note less in one bar and another fret in a later one, where such notes are.</summary>
    public static Break WithSlips(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var bars = played.Bars.ToBuilder();
        var left = Slip(bars, bars.Count / 3, (strokes, i) => strokes.RemoveAt(i));
        Slip(
            bars,
            Math.Max(left + 1, 2 * bars.Count / 3),
            (strokes, i) => strokes.SetItem(i, strokes[i] with { Fret = strokes[i].Fret + 2 })
        );
        return played with { Bars = bars.ToImmutable(), Spans = [] };
    }

    // In the first bar from the one asked for on that has a plucked note alone at its time and no slur near it.
    private static int Slip(
        ImmutableArray<BreakBar>.Builder bars,
        int first,
        Func<ImmutableArray<Stroke>, int, ImmutableArray<Stroke>> change
    )
    {
        for (var bar = first; bar < bars.Count; bar++)
        {
            var strokes = bars[bar].Strokes;
            for (var i = 1; i < strokes.Length - 1; i++)
            {
                var (before, here, after) = (strokes[i - 1], strokes[i], strokes[i + 1]);
                var isPlain = before.Slur is null && here.Slur is null && after.Slur is null;
                if (!isPlain || here.String == Neck.ShortString || before.At == here.At || here.At == after.At)
                    continue;
                bars[bar] = bars[bar] with { Strokes = change(strokes, i) };
                return bar;
            }
        }
        return first;
    }
}
