namespace Rollwright.Engraving.Spacing;

/// <summary>The distance from one column to the next (or to the bar line): a rod that cannot shrink in a spring.</summary>
/// <param name="Ideal">Points at a stretch of 1; grows with the duration.</param>
/// <param name="Least">Points that the ink needs.</param>
internal readonly record struct Spring(double Ideal, double Least)
{
    public double At(double stretch) => Math.Max(Least, Ideal * stretch);
}
