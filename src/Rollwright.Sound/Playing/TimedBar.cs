using Rollwright.Music.Metre;

namespace Rollwright.Sound.Playing;

/// <summary>A bar in time, as the band counts it: also those of the count before the music.</summary>
/// <param name="Seconds">When its full bar begins; before what sounds of it where that is a pickup.</param>
/// <param name="Time">Its metre.</param>
/// <param name="From">Whole notes from the beginning of the full bar at which it begins to sound.</param>
/// <param name="To">Whole notes from the beginning of the full bar at which the next bar takes over.</param>
/// <param name="Place">Index in the order of play; −1 for a bar of the count.</param>
/// <param name="Bar">Index of the written bar; −1 for a bar of the count.</param>
/// <param name="Pass">How often the whole was played before; −1 for a bar of the count.</param>
public readonly record struct TimedBar(
    double Seconds,
    TimeSignature Time,
    Fraction From,
    Fraction To,
    int Place,
    int Bar,
    int Pass
)
{
    public bool IsCount => Pass < 0;
}
