using System.Collections.Immutable;
using Rollwright.Engraving.Notation;

namespace Rollwright.Engraving.Spacing;

/// <summary>
/// Which way stems point: the note farthest from the middle line decides for all under one beam; from the middle
/// line, downwards (common practice).
/// </summary>
internal static class StemDirections
{
    /// <summary>One answer a moment: whether its stem points up.</summary>
    public static ImmutableArray<bool> Of(WrittenBar bar)
    {
        var up = new bool[bar.Moments.Length];
        foreach (var group in bar.Moments.Select((moment, index) => (moment, index)).GroupBy(KeyOf))
        {
            var steps = group.SelectMany(item => item.moment.Notes).Select(note => note.Step).ToList();
            var points = steps.Count > 0 && -steps.Min() > steps.Max();
            foreach (var (_, index) in group)
                up[index] = points;
        }
        return [.. up];
    }

    private static (int Beam, int Index) KeyOf((WrittenMoment Moment, int Index) item) =>
        item.Moment.Beam >= 0 ? (item.Moment.Beam, -1) : (-1, item.Index);
}
