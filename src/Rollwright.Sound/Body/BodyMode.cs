namespace Rollwright.Sound.Body;

/// <summary>One resonance of a body; a row of <c>data/body-modes.txt</c>.</summary>
/// <param name="Hz">Centre, 20 to 20,000.</param>
/// <param name="Q">Centre over the width at half power, more than 0.5.</param>
/// <param name="Level">Gain at the centre.</param>
/// <param name="Side">Where it radiates to in stereo: −1 left, 1 right.</param>
public sealed record BodyMode(double Hz, double Q, double Level, double Side)
{
    /// <summary>Modes a body has at most: what the bank computes at a time.</summary>
    public const int Most = 16;
}
