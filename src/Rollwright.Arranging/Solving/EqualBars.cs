using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;

namespace Rollwright.Arranging.Solving;

/// <summary>Bars in which the tune wishes the same: same notes, same chords, same length. Players play them alike.</summary>
public static class EqualBars
{
    /// <summary>Groups of two or more equal bars, by index, in order of their first.</summary>
    public static ImmutableArray<ImmutableArray<int>> Of(StepGrid grid)
    {
        var groups = new Dictionary<string, List<int>>(StringComparer.Ordinal);
        for (var bar = 0; bar < grid.Bars.Length; bar++)
        {
            var key = string.Join(
                ' ',
                grid.Steps.AsSpan()[grid.Bars[bar]].ToArray().Select(step => $"{step.Length}:{step.Onset}:{step.Chord}")
            );
            if (!groups.TryGetValue(key, out var group))
                groups[key] = group = [];
            group.Add(bar);
        }
        return [.. groups.Values.Where(group => group.Count > 1).Select(group => group.ToImmutableArray())];
    }
}
