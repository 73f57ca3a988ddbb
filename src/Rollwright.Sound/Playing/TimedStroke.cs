using Rollwright.Banjo.Breaks;

namespace Rollwright.Sound.Playing;

/// <summary>A stroke at its second.</summary>
/// <param name="Seconds">From the start of the sound.</param>
/// <param name="Played">The stroke, with the bar and index that name it.</param>
public readonly record struct TimedStroke(double Seconds, PlayedStroke Played);
