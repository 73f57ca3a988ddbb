namespace Rollwright.Engraving.Systems;

/// <summary>Which bars stand in one system, and how far its springs are stretched.</summary>
/// <param name="First">Index of its first bar.</param>
/// <param name="After">Index after its last bar.</param>
/// <param name="Stretch">1 is the ideal.</param>
internal readonly record struct LinePlan(int First, int After, double Stretch)
{
    public int Count => After - First;
}
