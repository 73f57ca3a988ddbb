namespace Rollwright.Engraving.Measuring;

/// <summary>The faces of lettering on a page.</summary>
public enum Face
{
    Roman,
    Italic,
    Bold,

    /// <summary>Plain sans serif, for tab numbers.</summary>
    Plain,

    /// <summary>Bold sans serif, for tab numbers that carry the tune.</summary>
    PlainBold,
}
