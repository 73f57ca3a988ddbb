namespace Rollwright.Listening.Beside.Answers;

/// <summary>A note that was played and not meant.</summary>
/// <param name="Onset">Seconds from the beginning of the recording.</param>
/// <param name="Pitch">MIDI key.</param>
/// <param name="Bar">Index of the bar in order of play; null where the break is not followed then, or the bar is played again later.</param>
public readonly record struct AddedNote(double Onset, int Pitch, int? Bar);
