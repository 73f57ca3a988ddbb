namespace Rollwright.Listening.Melodies;

/// <summary>A note of one line, as it was heard.</summary>
/// <param name="Onset">Seconds from the beginning of the recording.</param>
/// <param name="End">Seconds; after the onset.</param>
/// <param name="Pitch">MIDI key, in the tuning of the player.</param>
/// <param name="Confidence">0 to 1: how much of it is clearly at its pitch; no probability.</param>
public readonly record struct MelodyNote(double Onset, double End, int Pitch, double Confidence);
