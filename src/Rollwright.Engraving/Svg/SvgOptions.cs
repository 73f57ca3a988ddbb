namespace Rollwright.Engraving.Svg;

/// <summary>How a page is written as SVG.</summary>
public sealed record SvgOptions
{
    /// <summary>Put before every id, so that several drawings can stand in one document.</summary>
    public string Prefix { get; init; } = "";

    /// <summary>
    /// Whether the file carries the letters of its text fonts (about 60 kB). Without them a reader takes its own serif and
    /// sans serif; music signs are outlines in any case.
    /// </summary>
    public bool EmbedFonts { get; init; }

    /// <summary>How dense the light plate behind the drawing is, 0 (none) to 1: with one it can be read on any picture.</summary>
    public double Plate { get; init; }

    /// <summary>Whether width and height are given in points; otherwise the drawing fills the width it is given.</summary>
    public bool FixedSize { get; init; } = true;
}
