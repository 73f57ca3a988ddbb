using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rollwright.Music.Metre;

namespace Rollwright.Engraving.Signs;

/// <summary>Which notes of a bar hang on which beams, above a staff and below a tab alike.</summary>
internal static class BeamRuns
{
    /// <summary>Notes under a common beam: indices of the first and after the last.</summary>
    public static IEnumerable<(int First, int After)> Groups(SetBar bar)
    {
        var moments = bar.Written.Moments;
        for (var first = 0; first < moments.Length; )
        {
            var after = first + 1;
            if (moments[first].Beam >= 0)
            {
                while (after < moments.Length && moments[after].Beam == moments[first].Beam)
                    after++;
                yield return (first, after);
            }
            first = after;
        }
    }

    /// <summary>
    /// The beams of a group, by level from 1, the outermost, and the first and last note that each reaches, counted in the
    /// group; finer beams stop at each quarter so that beats stay visible.
    /// </summary>
    public static IEnumerable<(int Level, int From, int To)> Of(SetBar bar, int first, int after)
    {
        var flags = Enumerable.Range(first, after - first).Select(i => bar.Written.Moments[i].Value.Flags).ToArray();
        for (var level = 1; level <= flags.Max(); level++)
        for (var from = 0; from < flags.Length; )
        {
            var to = from;
            if (flags[from] >= level)
            {
                while (
                    to + 1 < flags.Length
                    && flags[to + 1] >= level
                    && (level == 1 || QuarterOf(to + 1) == QuarterOf(from))
                )
                    to++;
                yield return (level, from, to);
            }
            from = to + 1;
        }

        long QuarterOf(int index)
        {
            var beat = bar.Written.Bar.Time.IsCompound ? bar.Written.Bar.Time.Beat : new Fraction(1, 4);
            return ((bar.Written.Moments[first + index].At + bar.Written.Offset) / beat).Floor();
        }
    }

    /// <summary>Where a beam begins and ends; over one note it is a stub towards the note that it belongs to.</summary>
    /// <param name="x">Middles of the group's stems.</param>
    /// <param name="from">The first note that it reaches.</param>
    /// <param name="to">And the last.</param>
    /// <param name="sizes">Of the page.</param>
    public static (double Left, double Right) EndsOf(ReadOnlySpan<double> x, int from, int to, Sizes sizes)
    {
        var half = sizes.Stem / 2;
        if (to > from)
            return (x[from] - half, x[to] + half);
        var stub = 1.1 * sizes.Space;
        return from == 0 ? (x[from] - half, x[from] + stub) : (x[from] - stub, x[from] + half);
    }
}
