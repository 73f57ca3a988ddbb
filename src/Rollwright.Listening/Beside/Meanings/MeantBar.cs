namespace Rollwright.Listening.Beside.Meanings;

/// <summary>A bar in order of play.</summary>
/// <param name="At">Whole notes from the start of the first bar.</param>
/// <param name="Length">Whole notes.</param>
/// <param name="Written">Index of the written bar.</param>
/// <param name="Name">Its number as people count it.</param>
public readonly record struct MeantBar(double At, double Length, int Written, string Name);
