using System.Collections.Immutable;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Spacing;
using Rollwright.Music.Forms;

namespace Rollwright.Engraving.Systems;

/// <summary>
/// Parts the bars into systems: the cheapest of all ways, found by dynamic programming as paragraphs are broken into
/// lines (D. E. Knuth, M. F. Plass, Breaking Paragraphs into Lines, 1981). What is tight, loose or breaks a phrase costs.
/// </summary>
internal static class LineBreaking
{
    // More bars than this never stand in one system that can be read.
    private const int MostBars = 12;

    // The last system of a part stays short of the margin rather than being stretched beyond this.
    private const double LoosestLast = 1.75;

    // Phrases one below the other end alike where they can.
    private const double LoosestPhrase = 3;

    // What a line twice as dense as its neighbour costs is half of this (an assumption).
    private const double Uneven = 7;

    /// <param name="bars">All bars.</param>
    /// <param name="ends">Where parts end.</param>
    /// <param name="room">Points for bars in a system, by whether it is the first of the piece.</param>
    /// <param name="phrases">Where each phrase shall have a line of its own; else null.</param>
    public static ImmutableArray<LinePlan> Choose(
        ImmutableArray<MeasuredBar> bars,
        PartEnds ends,
        Func<bool, double> room,
        PhraseNumbers? phrases = null
    )
    {
        var sincePart = FullBarsSincePart(bars, ends);
        // By the bar after a line and the bars in it: the cheapest way so far, and the bars in the line before.
        var best = new Way[bars.Length + 1, MostBars + 1];
        for (var after = 1; after <= bars.Length; after++)
        {
            for (var count = 1; count <= Math.Min(after, MostBars); count++)
            {
                var first = after - count;
                var width = room(first == 0);
                var line = bars.AsSpan()[first..after];
                if (count > 1 && Least(line) > width)
                    break;
                var (cost, stretch) = Cost(
                    line,
                    width,
                    ends.Before(after),
                    phrases is null ? LoosestLast : LoosestPhrase
                );
                cost += BreakCost(bars, ends, sincePart, first, after) + PhraseCost(bars, phrases, first, after);
                best[after, count] = Cheapest(best, first, cost, stretch);
            }
        }
        var lines = new Stack<LinePlan>();
        var last = Cheapest(best, bars.Length, 0, 0).Before;
        for (var after = bars.Length; after > 0; )
        {
            var (_, stretch, before) = best[after, last];
            lines.Push(new(after - last, after, stretch));
            after -= last;
            last = before;
        }
        return [.. lines];
    }

    /// <param name="Cost">Of all lines up to this; 0 bars are no way.</param>
    /// <param name="Stretch">Of this line, against the natural width.</param>
    /// <param name="Before">Bars in the line before; 0 for none.</param>
    private readonly record struct Way(double Cost, double Stretch, int Before);

    // The line that starts with this bar, after the cheapest of the lines that may stand before it.
    private static Way Cheapest(Way[,] best, int first, double cost, double stretch)
    {
        if (first == 0)
            return new(cost, stretch, 0);
        var cheapest = new Way(double.PositiveInfinity, stretch, 0);
        for (var count = 1; count <= Math.Min(first, MostBars); count++)
        {
            var before = best[first, count];
            if (before.Stretch == 0)
                continue;
            var sum = before.Cost + cost + UnevenCost(before.Stretch, stretch);
            if (sum < cheapest.Cost)
                cheapest = new(sum, stretch, count);
        }
        return cheapest;
    }

    // Lines one below the other are of like density: the eye keeps its pace (adjacent lines in Knuth and Plass).
    private static double UnevenCost(double above, double below)
    {
        if (below == 0)
            return 0;
        var ratio = Math.Log(below / above);
        return Uneven * ratio * ratio;
    }

    private static (double Cost, double Stretch) Cost(
        ReadOnlySpan<MeasuredBar> line,
        double width,
        bool endsPart,
        double loosest
    )
    {
        var stretch = Justifying.Stretch(line, width);
        if (endsPart && stretch > loosest)
        {
            var filled = Justifying.WidthAt(line, 1) / width;
            return (3 * (1 - filled), 1);
        }
        var off = stretch < 1 ? (1 - stretch) / 0.22 : (stretch - 1) / 0.6;
        return (off * off, stretch);
    }

    private static double BreakCost(
        ImmutableArray<MeasuredBar> bars,
        PartEnds ends,
        int[] sincePart,
        int first,
        int after
    )
    {
        var cost = 0.0;
        var full = 0;
        for (var i = first; i < after; i++)
        {
            if (!bars[i].Written.IsPickup)
                full++;
            // A part that starts within a system is hard to find again.
            if (i > first && ends.Before(i))
                cost += 4;
        }
        if (full <= 1 && bars.Length > 2)
            cost += 3;
        if (after == bars.Length || ends.Before(after))
            return cost;
        cost += (sincePart[after] % 4) switch
        {
            0 => 0,
            2 => 1,
            _ => 4,
        };
        if (bars[after].Written.Bar.Marks.EndingStart.IsEmpty && ends.IsInEnding(after))
            cost += 1;
        return cost;
    }

    // More than any other cost: a line is a phrase unless the page is too narrow for it.
    private static double PhraseCost(ImmutableArray<MeasuredBar> bars, PhraseNumbers? phrases, int first, int after)
    {
        if (phrases is null)
            return 0;
        var cost = after < bars.Length && !phrases.Opens(bars[after].Written.Index) ? 1_000.0 : 0;
        for (var i = first + 1; i < after; i++)
            cost += phrases.Opens(bars[i].Written.Index) ? 1_000 : 0;
        return cost;
    }

    private static double Least(ReadOnlySpan<MeasuredBar> line)
    {
        var least = 0.0;
        foreach (var bar in line)
            least += bar.Least;
        return least;
    }

    // Full bars since the last start of a part, before each bar.
    private static int[] FullBarsSincePart(ImmutableArray<MeasuredBar> bars, PartEnds ends)
    {
        var since = new int[bars.Length + 1];
        for (var i = 0; i < bars.Length; i++)
        {
            var start = i > 0 && ends.Before(i) ? 0 : since[i];
            since[i] = start;
            since[i + 1] = start + (bars[i].Written.IsPickup ? 0 : 1);
        }
        return since;
    }
}
