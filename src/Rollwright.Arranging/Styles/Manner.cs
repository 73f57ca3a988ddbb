using Rollwright.Arranging.Costs;

namespace Rollwright.Arranging.Styles;

/// <summary>One way of playing a phrase: its column of the weights, and what only depends on those.</summary>
public sealed class Manner(string name, Weights weights)
{
    public string Name { get; } = name;

    public Weights Weights { get; } = weights;

    public RightPrice Right { get; } = new(weights);

    public SlurPrice Slurs { get; } = new(weights);
}
