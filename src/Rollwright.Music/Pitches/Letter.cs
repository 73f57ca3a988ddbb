namespace Rollwright.Music.Pitches;

/// <summary>The seven letters of the scale, in the order of the keyboard from C.</summary>
public enum Letter
{
    C,
    D,
    E,
    F,
    G,
    A,
    B,
}
