using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Instruments;

/// <summary>What sets a string going; a row of <c>data/touches.txt</c>, where the columns are explained.</summary>
/// <param name="Force">Of a note of full strength.</param>
/// <param name="FromBridge">Millimetres from the bridge.</param>
/// <param name="Wander">Millimetres by which that place is missed, either way.</param>
/// <param name="Sharp">Hz to which the pick or finger passes.</param>
/// <param name="Scrape">Strength of its noise beside the pluck.</param>
public sealed record Touch(double Force, double FromBridge, double Wander, double Sharp, double Scrape)
{
    /// <param name="strength">Of this note beside a full one.</param>
    /// <param name="missed">−1 to 1: how far the place is missed.</param>
    public Pluck With(double strength, double missed = 0) =>
        new((float)(Force * strength), FromBridge + (Wander * missed), Sharp, Scrape);
}
