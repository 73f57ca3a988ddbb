using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Playability;

/// <summary>Something that a hand has to be done with in time.</summary>
/// <param name="At">The stroke that it must be done for.</param>
/// <param name="Available">Whole notes since the hand was free for it, as played (swung where the break swings).</param>
/// <param name="Seconds">What a comfortable hand needs, more than 0.</param>
/// <param name="Words">What the hand does, as a sentence without bar and full stop.</param>
public readonly record struct HandDemand(PlayedStroke At, Fraction Available, double Seconds, string Words)
{
    /// <summary>Whole notes a minute up to which there is time enough.</summary>
    public double WholesPerMinute => Available.ToDouble() / Seconds * 60;
}
