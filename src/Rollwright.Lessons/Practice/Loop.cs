using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Practice;

/// <summary>Bars that are played again and again: those that follow each other in order of play.</summary>
/// <param name="Bars">Indices of the written bars, in order of play; at least one.</param>
/// <param name="From">Whole notes from the first bar in order of play.</param>
/// <param name="To">Whole notes from the first bar in order of play, not itself played.</param>
/// <param name="Name">As <see cref="Music.Forms.BarNumbering.Words"/> says it.</param>
public sealed record Loop(ImmutableArray<int> Bars, Fraction From, Fraction To, string Name)
{
    /// <summary>The bars as they follow each other where the first of them is first played; what does not follow is left out.</summary>
    /// <param name="played">The break.</param>
    /// <param name="bars">Indices of written bars, in order.</param>
    public static Loop Of(Break played, ImmutableArray<int> bars)
    {
        ArgumentNullException.ThrowIfNull(played);
        var order = played.Order;
        var (first, count) = (0, 0);
        for (var i = 0; i < order.Length && count < bars.Length; i++)
        {
            var here = 0;
            while (here < bars.Length && i + here < order.Length && order[i + here] == bars[here])
                here++;
            if (here > count)
                (first, count) = (i, here);
        }
        return InOrder(played, order, first, first + Math.Max(1, count));
    }

    /// <summary>These bars with the one before and the one after in order of play, as far as they lie within some bars.</summary>
    public Loop WithNeighbour(Break played, ImmutableArray<int> within)
    {
        ArgumentNullException.ThrowIfNull(played);
        var order = played.Order;
        var (first, after) = Places(played, order);
        if (after < order.Length && within.Contains(order[after]) && order[after] > order[after - 1])
            return InOrder(played, order, first, after + 1);
        if (first > 0 && within.Contains(order[first - 1]) && order[first - 1] < order[first])
            return InOrder(played, order, first - 1, after);
        return this;
    }

    /// <summary>These bars with the one that leads into them in order of play; the same where none does.</summary>
    public Loop WithEntry(Break played)
    {
        ArgumentNullException.ThrowIfNull(played);
        var order = played.Order;
        var (first, after) = Places(played, order);
        return first == 0 ? this : InOrder(played, order, first - 1, after);
    }

    private (int First, int After) Places(Break played, ImmutableArray<int> order)
    {
        var (at, first) = (Fraction.Zero, 0);
        while (at < From)
            at += played.Bars[order[first++]].Length;
        return (first, first + Bars.Length);
    }

    private static Loop InOrder(Break played, ImmutableArray<int> order, int first, int after)
    {
        var from = order.Take(first).Aggregate(Fraction.Zero, (sum, bar) => sum + played.Bars[bar].Length);
        var bars = order[first..after];
        var to = bars.Aggregate(from, (sum, bar) => sum + played.Bars[bar].Length);
        return new(bars, from, to, played.Numbering.Words(bars));
    }
}
