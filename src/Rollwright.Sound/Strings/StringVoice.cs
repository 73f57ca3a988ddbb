using System.Collections.Immutable;

namespace Rollwright.Sound.Strings;

/// <summary>How one string rings; a row of <c>data/string-voices.txt</c>, where the columns are explained.</summary>
/// <param name="String">From 1, the highest as players count.</param>
/// <param name="Open">MIDI key of the open string; null where the tuning says it.</param>
/// <param name="Fast">Seconds to −60 dB across the membrane, open string.</param>
/// <param name="Slow">The same along the membrane.</param>
/// <param name="FastHalving">Semitones up the neck that halve the fast time.</param>
/// <param name="SlowHalving">The same for the slow time.</param>
/// <param name="High">Seconds to −60 dB near 6 kHz, at every fret.</param>
/// <param name="Bright">Hz where the pluck's spectrum begins to fall, at the first of <see cref="Registers"/>, at least one.</param>
/// <param name="Thin">Hz below which it falls, at the same registers.</param>
public sealed record StringVoice(
    int String,
    int? Open,
    double Fast,
    double Slow,
    double FastHalving,
    double SlowHalving,
    double High,
    ImmutableArray<double> Bright,
    ImmutableArray<double> Thin
)
{
    /// <summary>Semitones above open at which the brightness of a string is given.</summary>
    public static ImmutableArray<int> Registers { get; } = [0, 5, 12, 17];

    public double FastAt(double semitones) => Fast * Math.Pow(2, -semitones / FastHalving);

    public double SlowAt(double semitones) => Slow * Math.Pow(2, -semitones / SlowHalving);

    /// <summary>Between two registers by equal ratios a semitone; beyond the last given it rises with the pitch.</summary>
    public double BrightAt(double semitones) => At(Bright, semitones);

    /// <inheritdoc cref="BrightAt"/>
    public double ThinAt(double semitones) => At(Thin, semitones);

    private static double At(ImmutableArray<double> values, double semitones)
    {
        var above = 1;
        while (above < values.Length && Registers[above] < semitones)
            above++;
        var (from, start) = (Registers[above - 1], values[above - 1]);
        if (above == values.Length)
            return start * Math.Pow(2, (semitones - from) / 12);
        return start * Math.Pow(values[above] / start, (semitones - from) / (Registers[above] - from));
    }
}
