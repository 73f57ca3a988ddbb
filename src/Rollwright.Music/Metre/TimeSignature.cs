namespace Rollwright.Music.Metre;

/// <summary>A time signature such as 4/4, 2/2 or 6/8.</summary>
/// <param name="Beats">The upper number, 1 to 64.</param>
/// <param name="Unit">The lower number, a power of two from 1 to 64.</param>
public readonly record struct TimeSignature(int Beats, int Unit)
{
    public static TimeSignature Common => new(4, 4);

    public static TimeSignature Cut => new(2, 2);

    /// <summary>Length of a full bar, in whole notes.</summary>
    public Fraction Bar => new(Beats, Unit);

    /// <summary>Whether beats fall in threes of the unit: 6/8, 9/8, 12/8 (and their like over 16).</summary>
    public bool IsCompound => Unit >= 8 && Beats > 3 && Beats % 3 == 0;

    /// <summary>Length of one felt beat, in whole notes: a dotted quarter in 6/8, a half in 2/2.</summary>
    public Fraction Beat => IsCompound ? new(3, Unit) : new(1, Unit);

    /// <summary>
    /// Length of what players count aloud, in whole notes: the beat, but one to six in 6/8 (common practice, no source).
    /// </summary>
    public Fraction Count => IsCompound ? new(1, Unit) : Beat;

    /// <summary>
    /// The stretch of a bar that a beam may cover, in whole notes: the half bar of four quarters, so that a roll's
    /// eighths stand in fours; the dotted quarter of compound metres; a whole bar of 3/8; otherwise the quarter (common
    /// practice, no source).
    /// </summary>
    public Fraction BeamGroup =>
        IsCompound ? Beat
        : Bar == new Fraction(1) ? new(1, 2)
        : Unit == 8 && Beats == 3 ? Bar
        : new(1, 4);

    /// <summary>
    /// The steadiest fine grid of tunes in this metre: a sixteenth in 2/4 (and below), otherwise an eighth.
    /// Where a roll runs, it plays one note a step.
    /// </summary>
    public Fraction Step => Unit >= 16 || (Unit == 4 && Beats == 2) ? new(1, 16) : new(1, 8);

    public override string ToString() => $"{Beats}/{Unit}";
}
