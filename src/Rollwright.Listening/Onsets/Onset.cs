namespace Rollwright.Listening.Onsets;

/// <summary>A moment at which something new begins.</summary>
/// <param name="Time">Seconds from the beginning of the recording.</param>
/// <param name="Strength">How much rises there, in the take's own measure; a pluck rises more than a slur.</param>
/// <param name="Above">How much more than around it.</param>
internal readonly record struct Onset(double Time, double Strength, double Above);
