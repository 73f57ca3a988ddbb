namespace Rollwright.Sound.Strings;

/// <summary>An open string of an instrument as it is set up.</summary>
/// <param name="Key">MIDI key that it sounds, capo included.</param>
/// <param name="Length">Millimetres that swing, capo included.</param>
public readonly record struct OpenString(int Key, double Length)
{
    public double Hz => 440 * Math.Pow(2, (Key - 69) / 12.0);
}
