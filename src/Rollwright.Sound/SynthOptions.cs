using System.Collections.Immutable;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.Sound.Playing;

namespace Rollwright.Sound;

/// <summary>What of a break is sounded, and how.</summary>
public sealed record SynthOptions
{
    /// <summary>More units a minute than this are no music but a mistake (assumption).</summary>
    public const double FastestTempo = 1_000;

    /// <summary>Frames a second, unless asked otherwise.</summary>
    public const int UsualRate = 44_100;

    /// <summary>Null for the break's own.</summary>
    public Tempo? Tempo { get; init; }

    /// <summary>
    /// How often what is sounded is played, 1 to 100, as a loop: without a gap, and where it begins with a pickup so that the
    /// beat goes on and the pickup stands in the last bar.
    /// </summary>
    public int TimesThrough { get; init; } = 1;

    /// <summary>Whole notes from the first bar in order of play; what begins earlier is not played.</summary>
    public Fraction From { get; init; }

    /// <summary>Whole notes from the first bar in order of play, not itself played; null for the end.</summary>
    public Fraction? To { get; init; }

    /// <summary>Bars of click before the music, 0 to 2; a pickup comes at its place in the bar after them.</summary>
    public int CountIn { get; init; }

    /// <summary>Who plays beside the banjo, of <see cref="Band.Ensemble.Accompanists"/>.</summary>
    public ImmutableArray<string> Band { get; init; } = [];

    /// <summary>The banjo plays so many bars, then rests as many while the band goes on; 1 to 16, null for no rest.</summary>
    public int? RestEvery { get; init; }

    /// <summary>How loud the banjo plays tune, drone and fill.</summary>
    public Accents Accents { get; init; } = Accents.Usual;

    /// <summary>dB by which parts are louder than the tables say, by name ("banjo", "bass" and so on), −60 to 20.</summary>
    public ImmutableDictionary<string, double> Levels { get; init; } = ImmutableDictionary<string, double>.Empty;

    /// <summary>Frames a second: 44,100 or 48,000.</summary>
    public int SampleRate { get; init; } = UsualRate;

    public bool Stereo { get; init; }

    /// <summary>Seconds that the last notes may ring after the end, 0 to 10.</summary>
    public double Tail { get; init; } = 1.5;

    /// <summary>Fixes the small unevenness of a hand: the same seed gives the same sound, bit for bit.</summary>
    public int Seed { get; init; } = 1;

    /// <exception cref="SoundException">An option is out of its range; the message says which range.</exception>
    internal void Check()
    {
        Demand(TimesThrough is >= 1 and <= 100, "Times through are 1 to 100.");
        Demand(CountIn is >= 0 and <= 2, "A count-in is 0 to 2 bars.");
        Demand(RestEvery is null or (>= 1 and <= 16), "Bars between rests are 1 to 16.");
        Demand(SampleRate is 44_100 or 48_000, "The sample rate is 44100 or 48000.");
        Demand(Tail is >= 0 and <= 10, "The tail is 0 to 10 seconds.");
        Demand(Levels.Values.All(IsLevel), "A level is -60 to 20 dB.");
        Demand(IsLevel(Accents.Melody) && IsLevel(Accents.Drone) && IsLevel(Accents.Fill), "A level is -60 to 20 dB.");
    }

    private static bool IsLevel(double level) => level is >= -60 and <= 20;

    private static void Demand(bool isWithin, string range)
    {
        if (!isWithin)
            throw new SoundException(range);
    }
}
