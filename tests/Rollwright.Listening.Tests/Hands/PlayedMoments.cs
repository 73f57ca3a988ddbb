using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Moment = Rollwright.Listening.Takes.Moment;

namespace Rollwright.Listening.Tests.Hands;

/// <summary>A break as an ear without fault would hear it: repeats taken.</summary>
internal static class PlayedMoments
{
    public static List<Moment> Of(Break meant, double secondsPerWhole = 2)
    {
        var (moments, start) = (new List<Moment>(), Fraction.Zero);
        foreach (var bar in meant.Order)
        {
            foreach (var together in meant.Bars[bar].Strokes.GroupBy(stroke => stroke.At).OrderBy(group => group.Key))
            {
                ImmutableArray<int> keys = [.. together.Select(meant.KeyOf).Distinct().Order()];
                var attack = together.Any(stroke => stroke.Slur is null) ? 1 : 0;
                moments.Add(
                    new(0.5 + (secondsPerWhole * (start + together.Key).ToDouble()), [new(keys, 0)], attack, 1)
                );
            }
            start += meant.Bars[bar].Length;
        }
        return moments;
    }
}
