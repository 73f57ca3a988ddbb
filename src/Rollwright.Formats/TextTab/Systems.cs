using Rollwright.Banjo.Breaks;

namespace Rollwright.Formats.TextTab;

/// <summary>Parts the bars into lines: four bars, else two, else one; a lead-in goes with the bar it leads to.</summary>
internal static class Systems
{
    private static readonly int[] Sizes = [4, 2, 1];

    /// <summary>First bar and number of bars of each line.</summary>
    public static IEnumerable<(int First, int Count)> Of(Break written, TabLayout layout, int width)
    {
        var first = 0;
        while (first < written.Bars.Length)
        {
            var count = Sizes
                .Select(size => Take(written, first, size))
                .FirstOrDefault(n => Fits(layout, first, n, width), 1);
            yield return (first, count);
            first += count;
        }
    }

    private static bool Fits(TabLayout layout, int first, int count, int width) =>
        layout.LabelWidth + 1 + Enumerable.Range(first, count).Sum(layout.WidthOf) <= width;

    // So many full bars, with the partial ones about them, up to where a part begins.
    private static int Take(Break written, int first, int full)
    {
        var count = 0;
        while (first + count < written.Bars.Length)
        {
            var bar = written.Bars[first + count];
            if (count > 0 && bar.Marks.Part is not null)
                break;
            if (!bar.IsPartial && full-- == 0)
                break;
            // What leads into the next line's first bar belongs to that line.
            var leadsOn = full == 0 && bar.IsPartial && count > 0 && bar.Marks.RepeatEnd < 2 && !bar.Marks.SectionEnd;
            if (leadsOn && first + count + 1 < written.Bars.Length)
                break;
            count++;
        }
        return Math.Max(1, count);
    }
}
