using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Practice;

/// <summary>Where a bar is hard: in itself, or on the way into it from the bar before, and then both have to be looped.</summary>
internal static class HardPlaces
{
    /// <summary>Indices of written bars, in order of play: one or two.</summary>
    public static ImmutableArray<int> Bars(BarTempo bar) =>
        bar.Before is { } before && before != bar.Bar ? [before, bar.Bar] : [bar.Bar];

    /// <summary>"bar 7", "from the end of bar 1 into bar 2".</summary>
    public static string Words(Break played, BarTempo bar)
    {
        var counting = new Counting(played);
        return bar.Before is { } before
            ? $"from the end of {counting.NameOf(before)} into {counting.NameOf(bar.Bar)}"
            : counting.NameOf(bar.Bar);
    }
}
