using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;

namespace Rollwright.Banjo.Settings;

/// <summary>How a tune is put on the banjo: tuning, capo, playing position, octave.</summary>
/// <param name="Tuning">The open strings; the fifth is retuned here where the position asks for it.</param>
/// <param name="Capo">Fret of the capo, 0 for none; the short string goes up by the same amount.</param>
/// <param name="Position">The key as the hands know it (what sounds without the capo): G position, C position, …</param>
/// <param name="Shift">Semitones from the tune as written to what the banjo sounds, capo included; mostly -12.</param>
public sealed record Setting(Tuning Tuning, int Capo, Key Position, int Shift)
{
    /// <summary>The key that sounds.</summary>
    public Key SoundingKey => Position.Transpose(Capo);

    /// <summary>Octaves from the tune as written to what the banjo sounds, the nearest where another key sounds; mostly -1.</summary>
    public int Octave => (int)Math.Floor((Shift + 6) / 12.0);

    /// <summary>MIDI key that sounds at a string and fret; frets are counted from the capo.</summary>
    public int SoundingKeyOf(int banjoString, int fret) => Tuning.KeyOf(banjoString, fret) + Capo;

    /// <summary>Highest fret left above the capo, as numbered in tab.</summary>
    public int LastFret => Neck.LastFret - Capo;
}
