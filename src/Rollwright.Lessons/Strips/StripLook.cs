namespace Rollwright.Lessons.Strips;

/// <summary>How the strip of tab of a video looks.</summary>
/// <param name="Width">Pixels of its pictures, 320 to 3840.</param>
/// <param name="Plate">How dense the light plate behind the tab is, 0.4 to 1: below that nothing dark is read on a dark picture.</param>
/// <param name="IsLow">Whether it has lines, numbers and slurs alone, to leave more of the video: no chords, rhythm and fingers.</param>
public sealed record StripLook(int Width = 1280, double Plate = 0.85, bool IsLow = false);
