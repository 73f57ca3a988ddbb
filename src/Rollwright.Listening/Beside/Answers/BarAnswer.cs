namespace Rollwright.Listening.Beside.Answers;

/// <summary>A bar as it was played.</summary>
/// <param name="Bar">Index in order of play.</param>
/// <param name="From">Seconds from the beginning of the recording; null where it was not played.</param>
/// <param name="WholeNote">Seconds a whole note: the tempo in its middle; null where it was not played.</param>
/// <param name="Counts">Of its notes.</param>
public readonly record struct BarAnswer(int Bar, double? From, double? WholeNote, Counts Counts);
