using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Sound;

/// <summary>What of a break is sounded, and how.</summary>
public sealed record SynthOptions
{
    /// <summary>Null for the break's own.</summary>
    public Tempo? Tempo { get; init; }

    /// <summary>How often what is sounded is played, 1 to 100; without a gap, as a loop.</summary>
    public int TimesThrough { get; init; } = 1;

    /// <summary>Whole notes from the first bar in order of play; what begins earlier is not played.</summary>
    public Fraction From { get; init; }

    /// <summary>Whole notes from the first bar in order of play, not itself played; null for the end.</summary>
    public Fraction? To { get; init; }

    /// <summary>Frames a second: 44,100 or 48,000.</summary>
    public int SampleRate { get; init; } = 44_100;

    public bool Stereo { get; init; }

    /// <summary>Seconds that the last notes may ring after the end, 0 to 10.</summary>
    public double Tail { get; init; } = 1.5;

    /// <summary>Fixes the small unevenness of a hand: the same seed gives the same sound, bit for bit.</summary>
    public int Seed { get; init; } = 1;
}
