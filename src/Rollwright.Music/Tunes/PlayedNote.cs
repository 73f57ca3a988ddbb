using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Music.Tunes;

/// <summary>A melody note in order of play.</summary>
/// <param name="At">Whole notes from the start of the tune.</param>
/// <param name="Length">Whole notes, ties joined.</param>
/// <param name="Pitch">The sounding pitch.</param>
/// <param name="Bar">Index of the written bar in which it is struck.</param>
public readonly record struct PlayedNote(Fraction At, Fraction Length, Pitch Pitch, int Bar)
{
    public Fraction End => At + Length;
}
