namespace Rollwright.Engraving.Drawing;

/// <summary>Which part of a line of words stands at its place.</summary>
public enum Anchor
{
    Left,
    Middle,
    Right,
}
