namespace Rollwright.Engraving.Measuring;

/// <summary>
/// Sizes of all that is drawn, in points. Thicknesses within a staff are parts of its space, as the music font's
/// metadata gives them (Bravura 1.392, engravingDefaults); the rest is our own taste, judged on paper.
/// </summary>
internal sealed record Sizes(double Scale)
{
    /// <summary>Staff space of the notation: 1.69 mm, a staff of 6.8 mm, between pocket and part size.</summary>
    public double Space => 4.8 * Scale;

    /// <summary>Distance of tab lines: wide enough for numbers of neighbouring strings, and the line of a melody note between them.</summary>
    public double TabSpace => 8.3 * Scale;

    public double TabHeight => 4 * TabSpace;

    public double StaffLine => 0.13 * Space;
    public double TabLine => 0.5 * Scale;
    public double LedgerLine => 0.16 * Space;
    public double LedgerExtension => 0.4 * Space;
    public double Stem => 0.12 * Space;
    public double Beam => 0.5 * Space;
    public double BeamGap => 0.25 * Space;
    public double ThinBarLine => 0.16 * Space;
    public double ThickBarLine => 0.5 * Space;
    public double BarLineGap => 0.4 * Space;
    public double SlurEnd => 0.1 * Space;
    public double SlurMiddle => 0.22 * Space;
    public double Bracket => 0.45 * Space;

    /// <summary>Font size of tab numbers: 2.4 mm high digits, read at arm's length (about 70 cm).</summary>
    public double Number => 9.2 * Scale;

    /// <summary>White on both sides of a tab number within its line.</summary>
    public double NumberGap => 1.1 * Scale;

    public double Finger => 8 * Scale;
    public double LeftFinger => 6.6 * Scale;
    public double SlurLetter => 7 * Scale;
    public double SpanName => 7.2 * Scale;
    public double Chord => 11.5 * Scale;
    public double Part => 12 * Scale;
    public double BarNumber => 7 * Scale;
    public double Ending => 8.5 * Scale;
    public double Title => 20 * Scale;
    public double Credit => 9.5 * Scale;
    public double Legend => 7.5 * Scale;
    public double TabLetters => 9.5 * Scale;

    /// <summary>White between pieces of ink that belong to different things.</summary>
    public double Clear => 2.4 * Scale;
}
