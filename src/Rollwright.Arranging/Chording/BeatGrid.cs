using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>The beats that chords are counted in.</summary>
internal static class BeatGrid
{
    /// <summary>A dotted quarter in compound metres, a quarter in 2/2 as in 4/4; otherwise the lower number's note.</summary>
    public static Fraction Length(TimeSignature time) => time.Unit < 4 ? new(1, 4) : time.Beat;

    /// <summary>Start and length of the beats of one bar, in whole notes; the last may be shorter.</summary>
    public static IEnumerable<(Fraction At, Fraction Length)> Of(TuneBar bar)
    {
        var beat = Length(bar.Time);
        for (var at = Fraction.Zero; at < bar.Length; at += beat)
            yield return (at, Fraction.Min(beat, bar.Length - at));
    }
}
