using System.Collections.Immutable;

namespace Rollwright.Music.Forms;

/// <summary>The order in which written bars are played.</summary>
public static class Unfolding
{
    /// <summary>
    /// No section is played more often than this, whatever its marks say: a file that asks for a million passes is a
    /// mistake (our own bound).
    /// </summary>
    public const int MostPasses = 64;

    /// <summary>
    /// Indices of the written bars in order of play: repeats taken, endings by their pass.
    /// </summary>
    /// <remarks>
    /// A repeat end without a start goes back to the latest double bar line, part label or repeat end, or to the
    /// beginning (ABC 2.1, section 4.8). Two or more endings are alternatives even where the repeat mark between them
    /// was forgotten. The last ending goes on to its bracket's stop, a double bar line or the next repeat start; a
    /// repeat mark at its end has nothing left to repeat. A single ending that no repeat governs is played as it stands.
    /// </remarks>
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

    // A section is what one repeat governs: from its start to the end of its last ending.
    private static int SectionEnd(IReadOnlyList<BarMarks> bars, int start)
    {
        var isOpened = bars[start].RepeatStart;
        var isRepeated = false;
        var inEnding = false;
        var endings = 0;
        for (var i = start; i < bars.Count; i++)
        {
            var marks = bars[i];
            if (i > start && (marks.RepeatStart || (marks.Part is not null && (!isOpened || isRepeated))))
                return i;
            if (!marks.EndingStart.IsEmpty)
            {
                inEnding = true;
                endings++;
            }
            var repeats = marks.RepeatEnd > 1;
            isRepeated |= repeats;
            if (i + 1 < bars.Count && !bars[i + 1].EndingStart.IsEmpty)
                continue;
            if (repeats)
                return i + 1;
            if (inEnding && (marks.EndingStop || marks.SectionEnd))
            {
                if (isRepeated || endings > 1)
                    return i + 1;
                inEnding = false;
            }
            else if (!inEnding && marks.SectionEnd && !isOpened)
            {
                return i + 1;
            }
        }
        return bars.Count;
    }

    private static void PlaySection(IReadOnlyList<BarMarks> bars, int start, int end, ImmutableArray<int>.Builder order)
    {
        var passes = Passes(bars, start, end);
        for (var pass = 1; pass <= passes; pass++)
        {
            ImmutableArray<int> ending = [];
            for (var i = start; i < end; i++)
            {
                var marks = bars[i];
                if (!marks.EndingStart.IsEmpty)
                    ending = marks.EndingStart;
                var isPlayed = passes == 1 || ending.IsEmpty || ending.Contains(pass);
                if (isPlayed)
                    order.Add(i);
                // Behind a repeat mark an ending may follow that is played on some passes only (":|2,4").
                var goesBack = isPlayed && marks.RepeatEnd > 1 && pass < passes;
                if (goesBack && !(ending.IsEmpty && HasEndingFor(bars, i + 1, end, pass)))
                    break;
                if (marks.EndingStop || marks.SectionEnd)
                    ending = [];
            }
        }
    }

    private static bool HasEndingFor(IReadOnlyList<BarMarks> bars, int start, int end, int pass)
    {
        for (var i = start; i < end; i++)
        {
            if (bars[i].EndingStart.Contains(pass))
                return true;
        }
        return false;
    }

    private static int Passes(IReadOnlyList<BarMarks> bars, int start, int end)
    {
        var passes = 1;
        var endings = 0;
        var lastEnding = 1;
        for (var i = start; i < end; i++)
        {
            passes = Math.Max(passes, bars[i].RepeatEnd);
            if (bars[i].EndingStart.IsEmpty)
                continue;
            endings++;
            lastEnding = Math.Max(lastEnding, bars[i].EndingStart.Max());
        }
        if (passes > 1 || endings > 1)
            passes = Math.Max(passes, lastEnding);
        return Math.Min(passes, MostPasses);
    }
}
