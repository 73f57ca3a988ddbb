using System.Collections.Immutable;

namespace Rollwright.Engraving.Systems;

/// <summary>
/// Parts systems into pages: as few pages as they need, filled alike (least sum of squares of what stays white, by
/// dynamic programming), turned at the end of a part where that costs little.
/// </summary>
internal static class PageFilling
{
    // Share of a page's white that turning within a part is worth.
    private const double WithinPart = 0.02;

    /// <param name="heights">Of each system, in points.</param>
    /// <param name="gap">Least white between two systems.</param>
    /// <param name="room">Points for systems on a page, by its index.</param>
    /// <param name="endsPart">Whether a part ends with the system of that index.</param>
    /// <returns>Index after the last system of each page.</returns>
    public static ImmutableArray<int> Fill(
        ImmutableArray<double> heights,
        double gap,
        Func<int, double> room,
        Func<int, bool> endsPart
    )
    {
        var count = heights.Length;
        var cost = new List<double[]> { Row(count) };
        var from = new List<int[]> { new int[count + 1] };
        cost[0][0] = 0;
        for (var page = 0; double.IsInfinity(cost[page][count]); page++)
        {
            cost.Add(Row(count));
            from.Add(new int[count + 1]);
            for (var first = 0; first < count; first++)
            {
                if (double.IsInfinity(cost[page][first]))
                    continue;
                var used = -gap;
                for (var after = first + 1; after <= count; after++)
                {
                    used += gap + heights[after - 1];
                    var white = 1 - (used / room(page));
                    // A system that is higher than the page stands alone on one.
                    if (white < 0 && after > first + 1)
                        break;
                    var price = cost[page][first] + (white * white);
                    if (after < count && !endsPart(after - 1))
                        price += WithinPart;
                    if (price < cost[page + 1][after])
                    {
                        cost[page + 1][after] = price;
                        from[page + 1][after] = first;
                    }
                }
            }
        }
        var ends = new Stack<int>();
        for (int page = cost.Count - 1, after = count; page > 0; after = from[page][after], page--)
            ends.Push(after);
        return [.. ends];
    }

    private static double[] Row(int count)
    {
        var row = new double[count + 1];
        Array.Fill(row, double.PositiveInfinity);
        return row;
    }
}
