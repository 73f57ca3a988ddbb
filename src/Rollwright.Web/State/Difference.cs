using System.Collections.Immutable;
using Rollwright.Arranging;

namespace Rollwright.Web.State;

/// <summary>Where two arrangements of a tune sound otherwise.</summary>
/// <param name="Steps">Steps of the grid; empty where nothing differs.</param>
/// <param name="CanBeTold">False where their steps do not stand for each other: repeats were written out in one of them.</param>
public sealed record Difference(ImmutableArray<int> Steps, bool CanBeTold)
{
    public static Difference Between(Arrangement one, Arrangement other)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        var count = one.Grid.Steps.Length;
        return count != other.Grid.Steps.Length
            ? new([], CanBeTold: false)
            : new(
                [.. Enumerable.Range(0, count).Where(step => !one.PathAt(step).SoundsLike(other.PathAt(step)))],
                CanBeTold: true
            );
    }
}
