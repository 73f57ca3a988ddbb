namespace Rollwright.Listening.Beside.Answers;

/// <summary>A stretch of the take in which the break is followed without going elsewhere.</summary>
/// <param name="From">Seconds from the beginning of the recording.</param>
/// <param name="To">Seconds.</param>
/// <param name="FirstBar">Index of the bar in order of play in which it begins.</param>
/// <param name="LastBar">Index of the bar in order of play in which it ends.</param>
public readonly record struct Stretch(double From, double To, int FirstBar, int LastBar);
