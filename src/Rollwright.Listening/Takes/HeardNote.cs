using Rollwright.Banjo.Strokes;

namespace Rollwright.Listening.Takes;

/// <summary>A note heard in a recording.</summary>
/// <param name="Onset">Seconds from the beginning of the recording.</param>
/// <param name="Pitch">MIDI key, in the tuning of the instrument.</param>
/// <param name="Confidence">0 to 1: how well the sound is explained by this note; no probability.</param>
public sealed record HeardNote(double Onset, int Pitch, double Confidence)
{
    /// <summary>1 to 5; always null as yet: strings are not found so far.</summary>
    public int? String { get; init; }

    public int? Fret { get; init; }

    /// <summary>Always null as yet: fingers are not found so far.</summary>
    public RightFinger? Finger { get; init; }
}
