using System.Collections.Immutable;
using System.Globalization;
using Rollwright.Arranging;
using Rollwright.Arranging.Spots;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Cli.Asking;

/// <summary>The spots of an arrangement as spans for the page: the richest first, and none over another.</summary>
internal static class SpotSpans
{
    public static ImmutableArray<Span> Of(Arrangement made)
    {
        var chosen = new List<Spot>();
        foreach (
            var spot in made.Spots()
                .Where(spot => spot.Count > 1)
                .OrderByDescending(spot => spot.Count)
                .ThenBy(spot => spot.Bar)
        )
        {
            if (!chosen.Exists(other => Overlap(other, spot)))
                chosen.Add(spot);
        }
        return
        [
            .. chosen
                .OrderBy(spot => spot.Bar)
                .ThenBy(spot => spot.At)
                .Select(spot => new Span(
                    SpanKind.Lick,
                    string.Create(CultureInfo.InvariantCulture, $"{spot.Count} licks"),
                    spot.Bar,
                    spot.At,
                    spot.Length
                )),
        ];
    }

    private static bool Overlap(Spot one, Spot other) =>
        one.Bar == other.Bar && one.At < other.At + other.Length && other.At < one.At + one.Length;
}
