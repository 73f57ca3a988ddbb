namespace Rollwright.Banjo.Strokes;

/// <summary>The plucking fingers: thumb, index, middle.</summary>
public enum RightFinger
{
    T,
    I,
    M,
}
