using Rollwright.Arranging.Lattice;

namespace Rollwright.Arranging.Spots;

/// <summary>A lick that fits in a place.</summary>
/// <param name="Place">The lick, where it stands and what the hands do.</param>
/// <param name="Price">
/// What the whole break would cost more with it, everything around it solved again, in thousandths of a plain melody note
/// left out; 0 where it is in the break already.
/// </param>
public sealed record LickFit(LickPlace Place, int Price);
