using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Sound.Playing;

/// <summary>A bar in order of play.</summary>
/// <param name="Place">Index in the order of play.</param>
/// <param name="Bar">Index of the written bar.</param>
/// <param name="Start">Whole notes from the start of the break as played.</param>
/// <param name="Length">Whole notes.</param>
/// <param name="Missing">Whole notes of the full bar that lie before it.</param>
/// <param name="Time">Its metre.</param>
internal readonly record struct PlayedBar(
    int Place,
    int Bar,
    Fraction Start,
    Fraction Length,
    Fraction Missing,
    TimeSignature Time
)
{
    public Fraction End => Start + Length;
}

/// <summary>What of a break is sounded, and after what time it may be sounded again.</summary>
internal sealed record PlayedSpan
{
    public required Fraction From { get; init; }

    public required Fraction To { get; init; }

    /// <summary>The bars that it touches, in order of play; at least one.</summary>
    public required ImmutableArray<PlayedBar> Bars { get; init; }

    /// <summary>Whole notes from one pass to the next.</summary>
    public required Fraction Period { get; init; }

    /// <summary>Whether the next pass comes after whole bars, rather than after the span's own length.</summary>
    public required bool LeavesRoom { get; init; }

    /// <summary>The first bar's metre.</summary>
    public TimeSignature Time => Bars[0].Time;

    /// <summary>Whole notes of the first full bar before the span begins: where its pickup stands.</summary>
    public Fraction Entry => From - Bars[0].Start + Bars[0].Missing;

    /// <summary>
    /// A span of whole bars comes again after its own length. Where it begins with a pickup, or is the whole break, its
    /// first beat comes again after whole bars: the pickup of the next pass stands in the last bar, in the gap that is
    /// left for it or over what stands there.
    /// </summary>
    /// <exception cref="SoundException">Nothing lies between the two times.</exception>
    public static PlayedSpan Of(Break played, Fraction wishedFrom, Fraction? wishedTo)
    {
        var bars = BarsOf(played);
        var end = bars[^1].End;
        var from = Fraction.Max(wishedFrom, Fraction.Zero);
        var to = Fraction.Min(wishedTo ?? end, end);
        if (from >= to)
            throw new SoundException("The span to be sounded is empty: its end is not after its beginning.");
        ImmutableArray<PlayedBar> within = [.. bars.Where(bar => bar.Start < to && bar.End > from)];
        var (first, last) = (within[0], within[^1]);
        var entry = from - first.Start + first.Missing;
        var pickup = entry > Fraction.Zero && first.End < to ? first.Time.Bar - entry : Fraction.Zero;
        var gap = Fraction.Max(last.Time.Bar - (to - last.Start + last.Missing), Fraction.Zero);
        var leavesRoom = pickup > Fraction.Zero || (from == Fraction.Zero && to == end);
        return new()
        {
            From = from,
            To = to,
            Bars = within,
            LeavesRoom = leavesRoom,
            Period = leavesRoom ? to - from - pickup + gap : to - from,
        };
    }

    private static ImmutableArray<PlayedBar> BarsOf(Break played)
    {
        var numbering = played.Numbering;
        var start = Fraction.Zero;
        var bars = ImmutableArray.CreateBuilder<PlayedBar>();
        foreach (var index in played.Order)
        {
            var bar = played.Bars[index];
            bars.Add(new(bars.Count, index, start, bar.Length, numbering[index].Missing, bar.Time));
            start += bar.Length;
        }
        return bars.ToImmutable();
    }
}
