namespace Rollwright.Formats.Midi;

/// <summary>A note as it is played in a MIDI file.</summary>
/// <param name="On">Quarter notes from the start.</param>
/// <param name="Off">Quarter notes from the start, not before <paramref name="On"/>.</param>
/// <param name="Key">MIDI key, 0 to 127.</param>
internal readonly record struct MidiSound(double On, double Off, int Key);
