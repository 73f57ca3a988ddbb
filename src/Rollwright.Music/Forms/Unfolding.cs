using System.Collections.Immutable;

namespace Rollwright.Music.Forms;

/// <summary>The order in which written bars are played.</summary>
public static class Unfolding
{
    /// <summary>
    /// Indices of the written bars in order of play: repeats taken, endings by their pass. A repeat end without a
    /// start goes back to the last section's start (after an earlier repeat, or the beginning). An ending for a later
    /// pass that no repeat reaches is played as it stands.
    /// </summary>
    /// <param name="bars">Marks of each written bar.</param>
    public static ImmutableArray<int> Order(IReadOnlyList<BarMarks> bars)
    {
        var order = ImmutableArray.CreateBuilder<int>(bars.Count * 2);
        var start = 0;
        while (start < bars.Count)
        {
            var end = SectionEnd(bars, start);
            PlaySection(bars, start, end, order);
            start = end;
        }
        return order.ToImmutable();
    }

    // A section runs from its start to the end of its last ending: the bars that one repeat start governs.
    private static int SectionEnd(IReadOnlyList<BarMarks> bars, int start)
    {
        var repeated = false;
        var inEnding = false;
        for (var i = start; i < bars.Count; i++)
        {
            var marks = bars[i];
            if (i > start && marks.RepeatStart)
                return i;
            if (!marks.EndingStart.IsEmpty)
                inEnding = true;
            else if (repeated && !inEnding)
                return i;
            if (marks.RepeatEnd > 1)
            {
                repeated = true;
                // Another ending may follow; without one the section is over.
                if (i + 1 >= bars.Count || bars[i + 1].EndingStart.IsEmpty)
                    return i + 1;
            }
            else if (repeated && inEnding && (marks.EndingStop || marks.SectionEnd))
            {
                return i + 1;
            }
        }
        return bars.Count;
    }

    private static void PlaySection(IReadOnlyList<BarMarks> bars, int start, int end, ImmutableArray<int>.Builder order)
    {
        var passes = 1;
        for (var i = start; i < end; i++)
        {
            passes = Math.Max(passes, bars[i].RepeatEnd);
            if (passes > 1 || bars[i].RepeatEnd > 1)
                passes = Math.Max(passes, bars[i].EndingStart.DefaultIfEmpty(1).Max());
        }
        for (var pass = 1; pass <= passes; pass++)
        {
            ImmutableArray<int> ending = [];
            for (var i = start; i < end; i++)
            {
                if (!bars[i].EndingStart.IsEmpty)
                    ending = bars[i].EndingStart;
                if (passes > 1 && !ending.IsEmpty && !ending.Contains(pass))
                    continue;
                order.Add(i);
                // What stands after an ending's repeat mark belongs to another ending, which names its own pass.
                if (bars[i].RepeatEnd > 1 && ending.IsEmpty && pass < passes)
                    break;
            }
        }
    }
}
