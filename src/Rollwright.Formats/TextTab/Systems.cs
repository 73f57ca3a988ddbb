using Rollwright.Banjo.Breaks;
using Rollwright.Music.Forms;

namespace Rollwright.Formats.TextTab;

/// <summary>
/// Parts the bars into lines: four full bars, else two, else one. A lead-in goes with the bar it leads to, the bar
/// that completes it with the bars before; a part and a repeated section end their line; endings that follow one
/// another stay together where they fit.
/// </summary>
internal static class Systems
{
    private static readonly int[] Sizes = [4, 2, 1];

    /// <summary>First bar and number of bars of each line.</summary>
    public static IEnumerable<(int First, int Count)> Of(Break written, TabLayout layout, int width)
    {
        var first = 0;
        while (first < written.Bars.Length)
        {
            var start = first;
            var count = Sizes
                .Select(size => Take(written, start, size))
                .SelectMany(count => (int[])[WithEndings(written, start, count), count])
                .FirstOrDefault(count => Fits(layout, start, count, width), 1);
            yield return (first, count);
            first += count;
        }
    }

    private static bool Fits(TabLayout layout, int first, int count, int width) =>
        layout.LabelWidth + 1 + Enumerable.Range(first, count).Sum(layout.WidthOf) <= width;

    // So many full bars, with the partial ones about them, up to where a section ends or a part begins.
    private static int Take(Break written, int first, int most)
    {
        var full = 0;
        var count = 0;
        while (first + count < written.Bars.Length)
        {
            var bar = written.Bars[first + count];
            if (count > 0 && bar.Marks.Part is not null)
                break;
            var completes = bar.IsPartial && bar.Marks.ClosesEnding;
            if (full == most && !completes)
                break;
            full += bar.IsPartial ? 0 : 1;
            count++;
            if (full > 0 && bar.Marks.ClosesEnding)
                break;
        }
        return Math.Max(1, count);
    }

    private static int WithEndings(Break written, int first, int count)
    {
        while (first + count < written.Bars.Length && !written.Bars[first + count].Marks.EndingStart.IsEmpty)
        {
            do count++;
            while (!written.Bars[first + count - 1].Marks.EndingStop && first + count < written.Bars.Length);
        }
        return count;
    }
}
