using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Lessons.Words;

/// <summary>The fingers from which slurs over a bar line start.</summary>
internal sealed class SlurSources
{
    private readonly List<(int From, int To, FingerPlace Place)> overBars = [];

    public SlurSources(Break played)
    {
        foreach (var link in SlurLinks.Of(played))
        {
            var from = played.Bars[link.From.Bar].Strokes[link.From.Index];
            if (link.From.Bar != link.To.Bar && from.Fret > 0)
                overBars.Add((link.From.Bar, link.To.Bar, new(from.String, from.Fret, from.Left)));
        }
    }

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
