using Rollwright.Arranging.Lattice;

namespace Rollwright.Arranging.Solving;

/// <summary>Least costs of the past with the left hand gone on into the shapes of a step.</summary>
/// <param name="prices">The prices of the step.</param>
/// <param name="moved">By any way, at [state * Width + shape].</param>
/// <param name="still">The same where the hand keeps its shape.</param>
internal sealed class MovedPast(StepPrices prices, int[] moved, int[] still)
{
    /// <summary>For each shape of the step, from a state, for what happens in a row.</summary>
    public ReadOnlySpan<int> Of(int state, int row) =>
        (prices.IsStill(row) ? still : moved).AsSpan(state * prices.Width, prices.Width);
}
