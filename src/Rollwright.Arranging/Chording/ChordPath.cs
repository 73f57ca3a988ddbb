using System.Collections.Immutable;

namespace Rollwright.Arranging.Chording;

/// <summary>What a change of chord must be worth, in beats expected to be right.</summary>
/// <param name="AtBar">At the start of a bar.</param>
/// <param name="AtHalf">At its half.</param>
/// <param name="Elsewhere">On other beats.</param>
/// <param name="Shared">How far beats of the same melody share what is known of their chord, 0 to 1.</param>
internal sealed record PathPrices(double AtBar = 0.1, double AtHalf = 0.2, double Elsewhere = 0.4, double Shared = 0.5);

/// <summary>Chooses the chords: as many beats right as can be expected, less a price for every change.</summary>
internal static class ChordPath
{
    public static int[] Choose(ImmutableArray<Beat> beats, double[][] marginals, PathPrices prices)
    {
        var gains = Share(beats, marginals, prices.Shared);
        var count = beats.Length;
        var choice = new int[count][];
        // From the leaves to the root: the best of everything after, for each chord before.
        for (var i = count - 1; i >= 0; i--)
        {
            var before = beats[i].Before;
            var price = beats[i].Place switch { 0 => prices.AtBar, 1 => prices.AtHalf, _ => prices.Elsewhere };
            var best = 0;
            for (var t = 1; t < Triad.Count; t++)
            {
                if (gains[i][t] > gains[i][best])
                    best = t;
            }
            choice[i] = new int[Triad.Count];
            for (var from = 0; from < Triad.Count; from++)
            {
                var stays = before >= 0 && gains[i][from] >= gains[i][best] - price;
                choice[i][from] = stays ? from : best;
                if (before >= 0)
                    gains[before][from] += stays ? gains[i][from] : gains[i][best] - price;
            }
        }
        var path = new int[count];
        for (var i = 0; i < count; i++)
            path[i] = choice[i][beats[i].Before < 0 ? 0 : path[beats[i].Before]];
        return path;
    }

    private static double[][] Share(ImmutableArray<Beat> beats, double[][] marginals, double shared)
    {
        var alike = beats.Select((beat, i) => (beat.Like, i)).GroupBy(pair => pair.Like, pair => pair.i);
        var gains = new double[beats.Length][];
        foreach (var group in alike)
        {
            var mean = new double[Triad.Count];
            var members = group.ToArray();
            foreach (var i in members)
            {
                for (var t = 0; t < Triad.Count; t++)
                    mean[t] += marginals[i][t] / members.Length;
            }
            foreach (var i in members)
                gains[i] = [.. marginals[i].Select((value, t) => ((1 - shared) * value) + (shared * mean[t]))];
        }
        return gains;
    }
}
