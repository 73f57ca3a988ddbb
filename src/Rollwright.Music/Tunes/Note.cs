using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;

namespace Rollwright.Music.Tunes;

/// <summary>A melody note of a written bar.</summary>
/// <param name="At">Whole notes from the start of the bar.</param>
/// <param name="Length">Whole notes, more than zero; as written within this bar.</param>
/// <param name="Pitch">The sounding pitch of the tune (before any setting for the banjo).</param>
/// <param name="TiedFromBefore">The note goes on from the note before it and is not struck anew.</param>
public readonly record struct Note(Fraction At, Fraction Length, Pitch Pitch, bool TiedFromBefore = false);
