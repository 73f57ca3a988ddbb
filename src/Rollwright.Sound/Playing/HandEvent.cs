using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Playing;

/// <summary>What a hand does to a string.</summary>
public enum HandAct
{
    /// <summary>Stops the string at a fret, or leaves it open.</summary>
    Stop,

    /// <summary>Sets the string going.</summary>
    Pluck,

    /// <summary>Touches it, so that its note goes.</summary>
    Touch,

    /// <summary>Lets go of it.</summary>
    Release,
}

/// <summary>One act of a hand.</summary>
/// <param name="Seconds">From the start of the sound, 0 or more.</param>
/// <param name="Act">What is done.</param>
/// <param name="String">From 1.</param>
/// <param name="Above">Semitones above open, for a stop.</param>
/// <param name="Ramp">Seconds that a stop or a touch takes; 0 at once.</param>
/// <param name="Pluck">For a pluck.</param>
public readonly record struct HandEvent(
    double Seconds,
    HandAct Act,
    int String,
    double Above = 0,
    double Ramp = 0,
    Pluck Pluck = default
);
