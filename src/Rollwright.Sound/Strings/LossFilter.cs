namespace Rollwright.Sound.Strings;

/// <summary>
/// The loss of one round trip along a string, as a one-pole low-pass H(z) = g(1 − p)/(1 − p z⁻¹): low partials ring
/// longer than high ones. Designed from two decay times (after Jaffe and Smith 1983, 'Extensions of the Karplus-Strong
/// plucked-string algorithm', and J. O. Smith, 'Physical Audio Signal Processing').
/// </summary>
/// <param name="Gain">g(1 − p).</param>
/// <param name="Pole">p, from 0 up to but not including 1.</param>
internal readonly record struct LossFilter(double Gain, double Pole)
{
    /// <summary>Hz at which the high decay time is met.</summary>
    private const double HighAt = 6_000;

    /// <summary>
    /// A round trip lasts 1/f₀; to fall 60 dB in T seconds its gain is 10^(−3/(f₀T)). The pole meets the ratio of the
    /// gains at 0 Hz and at 6 kHz; the overall gain is then set so that the fundamental itself decays as asked.
    /// </summary>
    /// <param name="hz">The fundamental.</param>
    /// <param name="rate">Frames a second.</param>
    /// <param name="decay">Seconds to −60 dB of the fundamental.</param>
    /// <param name="highDecay">Seconds to −60 dB near 6 kHz; more than <paramref name="decay"/> counts as equal.</param>
    /// <param name="alreadyLost">The share of a wave that each round trip loses elsewhere (at the bridge), 0 to 1.</param>
    public static LossFilter Design(double hz, double rate, double decay, double highDecay, double alreadyLost)
    {
        var wanted = Math.Pow(10, -3 / (hz * decay));
        var wantedHigh = Math.Pow(10, -3 / (hz * Math.Min(decay, highDecay)));
        var ratio = wanted / wantedHigh * (wanted / wantedHigh);
        var pole = 0.0;
        if (ratio > 1 + 1e-9)
        {
            var k = (ratio - Math.Cos(2 * Math.PI * HighAt / rate)) / (ratio - 1);
            pole = k - Math.Sqrt((k * k) - 1);
        }
        var shape = new LossFilter(1 - pole, pole);
        // Held below 1 for the string must lose: a wish beyond what the bridge takes already is not granted.
        var gain = Math.Min(wanted / (1 - alreadyLost) / shape.Magnitude(hz, rate), 0.99999);
        return new(gain * (1 - pole), pole);
    }

    public double Magnitude(double hz, double rate)
    {
        var w = 2 * Math.PI * hz / rate;
        return Gain / Math.Sqrt(1 - (2 * Pole * Math.Cos(w)) + (Pole * Pole));
    }

    /// <summary>Phase delay in frames: what the delay line must be shorter by, or the note would be flat.</summary>
    public double PhaseDelay(double hz, double rate)
    {
        var w = 2 * Math.PI * hz / rate;
        return Math.Atan2(Pole * Math.Sin(w), 1 - (Pole * Math.Cos(w))) / w;
    }
}
