using Rollwright.Arranging.Lattice;

namespace Rollwright.Arranging.Spots;

/// <summary>A lick that fits in a place. Prices are thousandths of a plain melody note left out.</summary>
/// <param name="Place">The lick, where it stands and what the hands do.</param>
/// <param name="Whole">What the whole break would cost more with it, everything around it solved again.</param>
/// <param name="Consistency">
/// How much of that is only that the bar is no longer like its equals: what a player who wants a change asks for.
/// </param>
public sealed record LickFit(LickPlace Place, int Whole, int Consistency)
{
    /// <summary>What the lick itself costs more: tune lost, work of the hands. May be below 0, where it is only the likeness that keeps it out.</summary>
    public int Price => Whole - Consistency;
}
