using Rollwright.Banjo.Breaks;

namespace Rollwright.Listening.Beside.Meanings;

/// <summary>A note that was meant.</summary>
/// <param name="Id">Its name among the notes meant.</param>
/// <param name="At">Whole notes from the start of the first bar in order of play, swing and all.</param>
/// <param name="Pitch">MIDI key.</param>
/// <param name="Bar">Index of its bar in order of play.</param>
public sealed record MeantNote(int Id, double At, int Pitch, int Bar)
{
    /// <summary>Whether the left hand alone makes it: it may have no attack of its own.</summary>
    public bool IsSlurred { get; init; }

    /// <summary>The stroke of the written break; null where the notes come from elsewhere.</summary>
    public StrokeName? Name { get; init; }
}
