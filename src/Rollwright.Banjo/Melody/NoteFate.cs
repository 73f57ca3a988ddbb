using Rollwright.Banjo.Breaks;

namespace Rollwright.Banjo.Melody;

/// <summary>What becomes of a note of the tune in a break.</summary>
public enum Fate
{
    /// <summary>It is played at its time and pitch.</summary>
    Kept,

    /// <summary>It is played a step early or late, or at its time in another octave.</summary>
    Moved,

    /// <summary>It is not played.</summary>
    LeftOut,
}

/// <summary>The fate of one note of the tune.</summary>
/// <param name="Fate">What becomes of it.</param>
/// <param name="Stroke">The stroke that plays it; null where none does.</param>
public readonly record struct NoteFate(Fate Fate, StrokeName? Stroke);
