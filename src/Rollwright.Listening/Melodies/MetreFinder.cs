using Rollwright.Listening.Rhythm;
using Rollwright.Music.Metre;

namespace Rollwright.Listening.Melodies;

/// <summary>
/// What metre a line has and where its bars begin: the metre and the first bar line under which what happens at each step
/// is likeliest, by a table trained on tunes, and whose phrases of four bars agree with where the melody comes again.
/// </summary>
internal static class MetreFinder
{
    // What a return of the whole melody after phrases of a metre weighs, beside the mean of a step's odds; what the first
    // and the last note say weighs as so many steps.
    private const double ReturnWeight = 1;
    private const double EdgeWeight = 4;

    /// <param name="grid">The notes on their steps.</param>
    /// <param name="keys">Their pitches.</param>
    /// <param name="given">The metre where it is known; 2/2 is heard as 4/4 is.</param>
    /// <returns>The metre, and the step at which the first whole bar begins, from 0 up to the bar's steps.</returns>
    public static (TimeSignature Time, int First) Of(RhythmGrid grid, IReadOnlyList<int> keys, TimeSignature? given)
    {
        var kinds = MetreEvidence.Of(grid.Onsets, grid.Ends[^1], keys, RhythmGrid.PerStep);
        var line = Line(grid, keys);
        var best = (Time: given ?? TimeSignature.Common, First: 0, Score: double.NegativeInfinity);
        foreach (var table in Tables(given))
        {
            var steps = table.Kinds.Length;
            var again = table.Returning(line);
            for (var first = 0; first < steps; first++)
            {
                var score = table.Likelihood(kinds, first, EdgeWeight) + (ReturnWeight * again);
                if (score > best.Score + 1e-9)
                    best = (given ?? table.Time, first, score);
            }
        }
        return (best.Time, best.First);
    }

    // A metre that the table lacks takes the one with a bar as long, or the first.
    private static IEnumerable<MetreTable> Tables(TimeSignature? given)
    {
        if (given is not { } time)
            return MetreTable.OfLines;
        var same = MetreTable.OfLines.Where(table => table.Time == time).ToList();
        if (same.Count == 0)
            same = [.. MetreTable.OfLines.Where(table => table.Time.Bar == time.Bar).Take(1)];
        return same.Count > 0 ? same : Halved(time);
    }

    // Bars of 2/4 are the halves of 4/4 bars.
    private static IEnumerable<MetreTable> Halved(TimeSignature time)
    {
        var whole = MetreTable.OfLines[0];
        var steps = Math.Max(1, (int)Math.Round((time.Bar / new Fraction(1, 8)).ToDouble()));
        T[] Cut<T>(T[] all) => [.. Enumerable.Range(0, steps).Select(i => all[i % all.Length])];
        yield return new(time, Cut(whole.Kinds), Cut(whole.First), Cut(whole.Last));
    }

    private static int[] Line(RhythmGrid grid, IReadOnlyList<int> keys)
    {
        var line = new int[(grid.Onsets[^1] / RhythmGrid.PerStep) + 1];
        for (var i = 0; i < grid.Onsets.Length; i++)
            line[grid.Onsets[i] / RhythmGrid.PerStep] = keys[i];
        return line;
    }
}
