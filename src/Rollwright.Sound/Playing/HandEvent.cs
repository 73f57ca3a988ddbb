using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Playing;

/// <summary>What a hand does to a string at a frame.</summary>
internal enum HandAct
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
/// <param name="Frame">From the start of the sound.</param>
/// <param name="Act">What is done.</param>
/// <param name="String">1 to 5.</param>
/// <param name="Above">Semitones above open, for a stop.</param>
/// <param name="Ramp">Frames that a stop or a touch takes.</param>
/// <param name="Pluck">For a pluck.</param>
internal readonly record struct HandEvent(
    long Frame,
    HandAct Act,
    int String,
    double Above = 0,
    int Ramp = 0,
    Pluck Pluck = default
);
