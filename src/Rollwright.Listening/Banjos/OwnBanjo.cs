using System.Collections.Immutable;
using Rollwright.Listening.Hands.Strings;

namespace Rollwright.Listening.Banjos;

/// <summary>What the ear has learnt of one banjo, from notes that were played one by one.</summary>
/// <param name="Cents">How far above its pitch it is heard when it is in tune, -50 to 50.</param>
/// <param name="Notes">What each pitch looks like: shares of its partials from the first on, by MIDI key; at least one.</param>
/// <param name="Stops">How notes fall silent when their string is taken anew; null where that does not show.</param>
/// <param name="KnowsStops">Whether the frets were played too, so that <paramref name="Stops"/> is known, be it null.</param>
public sealed record OwnBanjo(
    double Cents,
    ImmutableSortedDictionary<int, ImmutableArray<double>> Notes,
    StopSense? Stops,
    bool KnowsStops
)
{
    /// <summary>The partials of the nearest pitch that was played.</summary>
    internal ImmutableArray<double> Nearest(int key) => Notes[Notes.Keys.MinBy(known => Math.Abs(known - key))];
}
