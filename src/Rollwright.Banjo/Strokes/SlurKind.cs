namespace Rollwright.Banjo.Strokes;

/// <summary>How a note sounds without being plucked: the left hand makes it on a string that rings.</summary>
public enum SlurKind
{
    /// <summary>A finger that stays down moves along the string, up or down; both frets above 0.</summary>
    Slide,

    /// <summary>A finger comes down above the sounding fret.</summary>
    HammerOn,

    /// <summary>A finger leaves (plucking slightly) and a lower fret or the open string sounds.</summary>
    PullOff,

    /// <summary>The string is bent while it rings; the fret is where the finger stays.</summary>
    Choke,
}
