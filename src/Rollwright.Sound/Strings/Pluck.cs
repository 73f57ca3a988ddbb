namespace Rollwright.Sound.Strings;

/// <summary>How a string is set going.</summary>
/// <param name="Force">1 for a melody note of full strength.</param>
/// <param name="FromBridge">Millimetres from the bridge to the pick.</param>
/// <param name="Sharpness">Hz to which the pick itself passes: a hard, narrow pick is sharper.</param>
/// <param name="Scrape">Strength of the pick's noise, relative to the pluck.</param>
public readonly record struct Pluck(float Force, double FromBridge, double Sharpness, double Scrape);
