using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Notation;

/// <summary>What is to be written down of one note.</summary>
/// <param name="At">Whole notes from the start of its bar.</param>
/// <param name="Length">Whole notes.</param>
/// <param name="Key">MIDI key as written.</param>
/// <param name="Index">Of the stroke in its bar, or of the note in its.</param>
/// <param name="Continues">Tied to the note before: not struck anew.</param>
internal readonly record struct Sounded(Fraction At, Fraction Length, int Key, int Index, bool Continues = false);
