using System.Collections.Immutable;

namespace Rollwright.Arranging.Chording;

/// <summary>Passages that come again note for note, as far as they are written out again.</summary>
internal static class Passages
{
    /// <summary>A passage has at least this many bars (our own bound: half a part).</summary>
    private const int LeastBars = 4;

    /// <summary>
    /// For each bar the bar whose chords it takes: an earlier one, where both stand at the same place of a passage that
    /// comes again; otherwise itself.
    /// </summary>
    /// <param name="melodies">One number a bar; equal numbers, equal melodies.</param>
    public static int[] Sources(ImmutableArray<int> melodies)
    {
        var sources = Enumerable.Range(0, melodies.Length).ToArray();
        for (var bar = 0; bar < melodies.Length; )
        {
            var (from, length) = Longest(melodies, bar);
            if (length < LeastBars)
            {
                bar++;
                continue;
            }
            for (var i = 0; i < length; i++)
                sources[bar + i] = sources[from + i];
            bar += length;
        }
        return sources;
    }

    // The earliest of the longest passages before a bar that the bars from it on repeat, without overlap.
    private static (int From, int Length) Longest(ImmutableArray<int> melodies, int bar)
    {
        var best = (From: bar, Length: 0);
        for (var from = 0; from < bar; from++)
        {
            var length = 0;
            while (
                from + length < bar
                && bar + length < melodies.Length
                && melodies[from + length] == melodies[bar + length]
            )
                length++;
            if (length > best.Length)
                best = (from, length);
        }
        return best;
    }
}
