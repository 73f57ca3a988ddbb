using System.Collections.Immutable;
using Rollwright.Engraving.Notation;

namespace Rollwright.Engraving.Spacing;

/// <summary>A bar with the room it needs, in points.</summary>
/// <param name="Written">What it holds.</param>
/// <param name="StemsUp">One answer a moment.</param>
/// <param name="Stacks">The heads of each moment.</param>
/// <param name="Front">From the left bar line to the first column, without a change of metre.</param>
/// <param name="Springs">From each column to the next, the last to the bar's closing line.</param>
/// <param name="Back">What the closing line takes.</param>
/// <param name="NewTime">Whether the metre changes here, so that it is printed in the bar.</param>
internal sealed record MeasuredBar(
    WrittenBar Written,
    ImmutableArray<bool> StemsUp,
    ImmutableArray<HeadStack> Stacks,
    double Front,
    ImmutableArray<Spring> Springs,
    double Back,
    bool NewTime
)
{
    public double Least { get; } = Front + Back + Springs.Sum(spring => spring.Least);

    public double WidthAt(double stretch)
    {
        var width = Front + Back;
        foreach (var spring in Springs)
            width += spring.At(stretch);
        return width;
    }
}
