using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>From which fret each slur of a break starts.</summary>
internal sealed class SlurSources
{
    private readonly Dictionary<(int Bar, Fraction At, int String), int> frets = [];
    private readonly List<(int From, int To, FingerPlace Place)> overBars = [];

    public SlurSources(Break played)
    {
        foreach (var link in SlurLinks.Of(played))
        {
            var (from, to) = (Stroke(link.From), Stroke(link.To));
            frets[(link.To.Bar, to.At, to.String)] = from.Fret;
            if (link.From.Bar != link.To.Bar && from.Fret > 0)
                overBars.Add((link.From.Bar, link.To.Bar, new(from.String, from.Fret, from.Left)));
        }

        Stroke Stroke(StrokeName name) => played.Bars[name.Bar].Strokes[name.Index];
    }

    /// <summary>The fret that sounds before a slur on its string; null where nothing does.</summary>
    public int? FretBefore(int bar, Stroke slur) =>
        frets.TryGetValue((bar, slur.At, slur.String), out var fret) ? fret : null;

    /// <summary>Fingers that lie down over the beginning of some bars, since a slur there starts from them.</summary>
    public ImmutableArray<FingerPlace> Into(ImmutableArray<int> bars) =>
        [
            .. overBars
                .Where(one => bars.Contains(one.To) && !bars.Contains(one.From))
                .Select(one => one.Place)
                .Distinct(),
        ];

    /// <summary>Fingers that lie down over the end of some bars.</summary>
    public ImmutableArray<FingerPlace> OutOf(ImmutableArray<int> bars) =>
        [
            .. overBars
                .Where(one => bars.Contains(one.From) && !bars.Contains(one.To))
                .Select(one => one.Place)
                .Distinct(),
        ];
}
