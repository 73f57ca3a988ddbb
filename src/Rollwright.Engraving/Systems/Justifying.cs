using Rollwright.Engraving.Spacing;

namespace Rollwright.Engraving.Systems;

/// <summary>How far springs must be stretched to fill a width.</summary>
internal static class Justifying
{
    public const double Loosest = 8;

    // Halvings of the interval: exact to a thousandth of a point on the widest page.
    private const int Halvings = 24;

    /// <summary>The stretch at which bars fill a width; the loosest where they never do.</summary>
    public static double Stretch(ReadOnlySpan<MeasuredBar> bars, double width)
    {
        double low = 0,
            high = Loosest;
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (low + high) / 2;
            if (WidthAt(bars, middle) < width)
                low = middle;
            else
                high = middle;
        }
        return low;
    }

    public static double WidthAt(ReadOnlySpan<MeasuredBar> bars, double stretch)
    {
        var width = 0.0;
        foreach (var bar in bars)
            width += bar.WidthAt(stretch);
        return width;
    }
}
