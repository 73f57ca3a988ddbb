using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Listening.Takes;

/// <summary>A note heard in a recording.</summary>
/// <param name="Onset">Seconds from the beginning of the recording.</param>
/// <param name="Pitch">MIDI key that sounds, in the tuning of the instrument.</param>
/// <param name="Confidence">0 to 1: how often notes heard as clearly as this one were right, on the listening bench.</param>
public sealed record HeardNote(double Onset, int Pitch, double Confidence)
{
    /// <summary>1 to 5; null where hands were not found for it.</summary>
    public int? String { get; init; }

    /// <summary>Counted from the capo.</summary>
    public int? Fret { get; init; }

    /// <summary>Which finger plucked it; null for a slur, or where hands were not found.</summary>
    public RightFinger? Finger { get; init; }

    /// <summary>How the left hand made it; null for a pluck.</summary>
    public SlurKind? Slur { get; init; }

    /// <summary>Index of the bar of the break.</summary>
    public int? Bar { get; init; }

    /// <summary>Whole notes from the start of the bar.</summary>
    public Fraction? At { get; init; }
}
