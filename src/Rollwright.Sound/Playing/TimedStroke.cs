using Rollwright.Banjo.Breaks;

namespace Rollwright.Sound.Playing;

/// <summary>A stroke at its second.</summary>
/// <param name="Seconds">From the start of the sound.</param>
/// <param name="Played">The stroke, with the bar and index that name it.</param>
/// <param name="IsResting">Whether the banjo is silent here and leaves the bar to the band.</param>
public readonly record struct TimedStroke(double Seconds, PlayedStroke Played, bool IsResting = false);
