using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Playability;

/// <summary>How far a left hand reaches and moves. Assumptions: hands differ.</summary>
public static class Reach
{
    /// <summary>Index to little finger without effort, mm (assumption).</summary>
    public const double Comfortable = 95;

    /// <summary>The widest stretch that is asked for, mm (assumption); frets 1 to 4 are 100 mm apart.</summary>
    public const double Widest = 112;

    /// <summary>How far the hand may move between two steps besides its stretch, mm (assumption).</summary>
    public const double MoveInAStep = 25;

    /// <summary>Distance along the neck between the lowest and the highest of some frets, mm; 0 for none.</summary>
    public static double Between(IEnumerable<int> frets)
    {
        var (low, high) = (int.MaxValue, 0);
        foreach (var fret in frets)
            (low, high) = (Math.Min(low, fret), Math.Max(high, fret));
        return high == 0 ? 0 : Neck.Place(high) - Neck.Place(low);
    }
}
