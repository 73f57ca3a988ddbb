using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Playability;

/// <summary>
/// How fast a break can be played comfortably, bar by bar: the times that hands need against the times that the break
/// gives them, as it is played, over bar lines, repeats and endings. It reads the break alone.
/// </summary>
/// <remarks>
/// A demand that needs s seconds and has w whole notes of time is met up to 60 · w / s whole notes a minute; a bar's
/// tempo is the least of its demands, on all passes. The times are in <c>data/hands.txt</c>.
/// </remarks>
/// <param name="Unit">The note value that the tempos count, in whole notes: the unit of the break's own tempo.</param>
/// <param name="Bars">One for each written bar.</param>
public sealed record TempoLimit(Fraction Unit, ImmutableArray<BarTempo> Bars)
{
    /// <summary>The tempo of the slowest bar; null where no bar asks for time.</summary>
    public double? PerMinute => Bars.Min(bar => bar.PerMinute);

    /// <summary>Indices of the bars that limit the whole: the slowest, and those hardly faster.</summary>
    public required ImmutableArray<int> Limiting { get; init; }

    public static TempoLimit Of(Break played, HandTimes? times = null)
    {
        var hands = times ?? HandTimes.Usual;
        var slowest = new HandDemand?[played.Bars.Length];
        foreach (var demand in Demands(played, hands))
        {
            ref var least = ref slowest[demand.At.Bar];
            if (least is not { } known || demand.WholesPerMinute < known.WholesPerMinute)
                least = demand;
        }
        var (unit, passes) = (played.Tempo.Unit, new Passes(played));
        ImmutableArray<BarTempo> bars =
        [
            .. slowest.Select(
                (demand, bar) =>
                    demand is { } least
                        ? new BarTempo(bar, least.WholesPerMinute / unit.ToDouble(), least.At.Stroke.At, least.Words)
                        {
                            Before = passes.BarBefore(least),
                        }
                        : new(bar, null, Fraction.Zero, "")
            ),
        ];
        var bound = bars.Min(bar => bar.PerMinute) * (1 + hands.Limiting);
        return new(unit, bars) { Limiting = [.. bars.Where(bar => bar.PerMinute <= bound).Select(bar => bar.Bar)] };
    }

    /// <summary>All demands of both hands, in order of play within each hand.</summary>
    public static IEnumerable<HandDemand> Demands(Break played, HandTimes times)
    {
        var moments = TimedMoment.Of(played);
        return RightHandDemands
            .Of(moments, times)
            .Concat(LeftHandDemands.Of(moments, times))
            // What would have to happen at once can be done at no tempo: that is for the checker to say.
            .Where(demand => demand.Available > Fraction.Zero);
    }

    // Bars as they follow each other, to see from which one a demand reaches over its bar line.
    private sealed class Passes
    {
        private readonly SwungTime swung;
        private readonly Dictionary<Fraction, (Fraction Start, int Bar)> before = [];

        public Passes(Break played)
        {
            swung = SwungTime.Of(played);
            var (start, last) = (Fraction.Zero, (Fraction.Zero, -1));
            foreach (var bar in played.Order)
            {
                if (last.Item2 >= 0)
                    before[start] = last;
                last = (start, bar);
                start += played.Bars[bar].Length;
            }
        }

        public int? BarBefore(HandDemand demand)
        {
            var start = demand.At.At - demand.At.Stroke.At;
            var begin = swung.At(demand.At.At) - demand.Available;
            return begin < swung.At(start) && before.TryGetValue(start, out var last) && begin >= swung.At(last.Start)
                ? last.Bar
                : null;
        }
    }
}
