using Rollwright.Music.Metre;

namespace Rollwright.Listening.Melodies;

/// <summary>
/// Where the bars lie and what metre they have: the metre and the place of the first bar whose weights (how strong each
/// place of a bar is, after Lerdahl and Jackendoff 1983) agree best with where notes begin and how long they last, and
/// whose phrases agree with where the melody comes again.
/// </summary>
internal static class MetreFinder
{
    private static readonly (TimeSignature Time, double[] Weights)[] Known =
    [
        (new(4, 4), [3, 0, 1, 0, 2, 0, 1, 0]),
        (new(6, 8), [3, 0, 0.5, 2, 0, 0.5]),
        (new(3, 4), [3, 0, 1, 0, 1, 0]),
    ];

    // How much a return of the melody after whole phrases counts beside the weights (assumption).
    private const double ReturnShare = 1.0;

    /// <param name="grid">The notes on their steps.</param>
    /// <param name="keys">Their pitches.</param>
    /// <param name="given">The metre where it is known; 2/4 and 2/2 are heard as 4/4 is.</param>
    /// <returns>The metre, and the step at which a bar begins, from 0 up to the bar's steps.</returns>
    public static (TimeSignature Time, int First) Of(RhythmGrid grid, IReadOnlyList<int> keys, TimeSignature? given)
    {
        var accents = Accents(grid);
        var returns = Returns(grid, keys);
        var best = (Time: given ?? TimeSignature.Common, First: 0, Score: double.NegativeInfinity);
        foreach (var (time, weights) in Candidates(given))
        {
            for (var first = 0; first < weights.Length; first++)
            {
                var score = Agreement(accents, weights, first) + (ReturnShare * returns(weights.Length * 4));
                if (score > best.Score + 1e-9)
                    best = (time, first, score);
            }
        }
        return (best.Time, best.First);
    }

    private static IEnumerable<(TimeSignature Time, double[] Weights)> Candidates(TimeSignature? given)
    {
        if (given is not { } time)
            return Known;
        var steps = (int)(time.Bar / new Fraction(1, 8)).ToDouble();
        var known = Known.Where(item => item.Time == time).ToList();
        if (known.Count > 0)
            return known;
        var weights = new double[Math.Max(1, steps)];
        var beat = Math.Max(1, (int)(time.Beat / new Fraction(1, 8)).ToDouble());
        for (var i = 0; i < weights.Length; i += beat)
            weights[i] = i == 0 ? 3 : 1;
        return [(time, weights)];
    }

    private static double[] Accents(RhythmGrid grid)
    {
        var accents = new double[(grid.Onsets[^1] / RhythmGrid.PerStep) + 1];
        for (var i = 0; i < grid.Onsets.Length; i++)
        {
            if (grid.Onsets[i] % RhythmGrid.PerStep != 0)
                continue;
            var until = i + 1 < grid.Onsets.Length ? grid.Onsets[i + 1] : grid.Ends[i];
            var steps = (double)(until - grid.Onsets[i]) / RhythmGrid.PerStep;
            accents[grid.Onsets[i] / RhythmGrid.PerStep] = 1 + Math.Min(4, steps);
        }
        return accents;
    }

    // Pearson's correlation.
    private static double Agreement(double[] accents, double[] weights, int first)
    {
        var (meanAccent, meanWeight) = (accents.Average(), weights.Average());
        var (both, one, other) = (0.0, 0.0, 0.0);
        for (var i = 0; i < accents.Length; i++)
        {
            var (a, w) = (accents[i] - meanAccent, weights[(i - first + weights.Length) % weights.Length] - meanWeight);
            (both, one, other) = (both + (a * w), one + (a * a), other + (w * w));
        }
        return one <= 0 || other <= 0 ? 0 : both / Math.Sqrt(one * other);
    }

    // How often the note at a step is there again so many steps later, above chance; the best of one, two and four times.
    private static Func<int, double> Returns(RhythmGrid grid, IReadOnlyList<int> keys)
    {
        var line = new int[(grid.Onsets[^1] / RhythmGrid.PerStep) + 1];
        for (var i = 0; i < grid.Onsets.Length; i++)
            line[grid.Onsets[i] / RhythmGrid.PerStep] = keys[i];
        double Same(int lag)
        {
            var (same, count) = (0, 0);
            for (var i = 0; i + lag < line.Length; i++)
            {
                if (line[i] == 0 && line[i + lag] == 0)
                    continue;
                count++;
                same += line[i] == line[i + lag] ? 1 : 0;
            }
            return count < 8 ? 0 : (double)same / count;
        }
        return phrase => new[] { phrase, 2 * phrase, 4 * phrase }.Max(Same);
    }
}
