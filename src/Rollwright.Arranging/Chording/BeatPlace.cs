using System.Collections.Immutable;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>Which beat of its bar a beat is.</summary>
/// <param name="Metre">Index into <see cref="Metres"/>.</param>
/// <param name="Number">Counted from 0; of a pickup from where a full bar would begin.</param>
/// <param name="Half">0 in the first half of the bar, 1 in the second.</param>
/// <param name="Weight">How the bar leans on it.</param>
internal readonly record struct BeatPlace(int Metre, int Number, int Half, BeatWeight Weight)
{
    /// <summary>Metres whose bars change chords alike: by the number of beats, and whether these fall in threes.</summary>
    public static ImmutableArray<string> Metres { get; } = ["4/4", "2/4", "6/8", "3/4", "9/8", "another metre"];

    /// <param name="bar">The bar.</param>
    /// <param name="at">The beat's start, in whole notes from the start of the bar as written.</param>
    /// <param name="missing">What a pickup lacks at its front, in whole notes.</param>
    public static BeatPlace Of(TuneBar bar, Fraction at, Fraction missing)
    {
        var beat = BeatGrid.Length(bar.Time);
        var perBar = (int)-(-(bar.Time.Bar / beat)).Floor();
        var number = (int)((at + missing) / beat).Floor();
        var weight =
            number == 0 ? BeatWeight.BarStart
            : 2 * number == perBar ? BeatWeight.HalfBar
            : BeatWeight.Weak;
        return new(MetreOf(bar.Time, perBar), number, 2 * number >= perBar && number > 0 ? 1 : 0, weight);
    }

    private static int MetreOf(TimeSignature time, int perBar) =>
        perBar switch
        {
            4 => 0,
            2 => time.IsCompound ? 2 : 1,
            3 => time.IsCompound ? 4 : 3,
            _ => 5,
        };
}

internal enum BeatWeight
{
    BarStart,
    HalfBar,
    Weak,
}
