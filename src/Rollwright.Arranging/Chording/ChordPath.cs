using System.Collections.Immutable;

namespace Rollwright.Arranging.Chording;

/// <summary>What a change of chord must win, in beats that are expected to be right: few changes read better.</summary>
/// <param name="AtBarStart">At the start of a bar.</param>
/// <param name="AtHalfBar">At its half.</param>
/// <param name="Elsewhere">On other beats.</param>
internal sealed record ChangePrices(double AtBarStart, double AtHalfBar, double Elsewhere)
{
    /// <summary>Chosen by cross-validation: fewer changes for about three beats in a thousand.</summary>
    public static ChangePrices Usual { get; } = new(0.05, 0.1, 0.2);

    public double At(BeatWeight weight) =>
        weight switch
        {
            BeatWeight.BarStart => AtBarStart,
            BeatWeight.HalfBar => AtHalfBar,
            _ => Elsewhere,
        };
}

/// <summary>
/// Chooses the chords: as many beats right as can be expected, less the price of every change. Beats of the same melody
/// share what is known of their chord, and passages that come again take the chords they had.
/// </summary>
internal static class ChordPath
{
    /// <returns>One triad a beat, seen from the tune's tonic.</returns>
    public static int[] Choose(ImmutableArray<Beat> beats, ChordBeliefs beliefs, ChangePrices prices)
    {
        var path = Best(beats, Shared(beats, beliefs), prices);
        Repeat(beats, path);
        return path;
    }

    // Dynamic programming from the last beats to the first. A new chord may as well be the best one there, so that each
    // beat has only two choices: to stay, or to go there.
    private static int[] Best(ImmutableArray<Beat> beats, double[][] gains, ChangePrices prices)
    {
        var best = new int[beats.Length];
        var stays = new bool[beats.Length][];
        for (var i = beats.Length - 1; i >= 0; i--)
        {
            best[i] = Array.IndexOf(gains[i], gains[i].Max());
            stays[i] = new bool[Triad.Count];
            if (beats[i].Before < 0)
                continue;
            var changed = gains[i][best[i]] - prices.At(beats[i].Weight);
            for (var triad = 0; triad < Triad.Count; triad++)
            {
                stays[i][triad] = gains[i][triad] >= changed;
                gains[beats[i].Before][triad] += Math.Max(gains[i][triad], changed);
            }
        }
        var path = new int[beats.Length];
        for (var i = 0; i < beats.Length; i++)
        {
            var before = beats[i].Before < 0 ? best[i] : path[beats[i].Before];
            path[i] = stays[i][before] ? before : best[i];
        }
        return path;
    }

    // The mean chance of each triad over all beats of the same melody.
    private static double[][] Shared(ImmutableArray<Beat> beats, ChordBeliefs beliefs)
    {
        var count = beats.Max(beat => beat.Like) + 1;
        var sums = Enumerable.Range(0, count).Select(_ => new double[Triad.Count]).ToArray();
        var members = new int[count];
        for (var i = 0; i < beats.Length; i++)
        {
            members[beats[i].Like]++;
            for (var triad = 0; triad < Triad.Count; triad++)
                sums[beats[i].Like][triad] += beliefs.At(i)[triad];
        }
        return [.. beats.Select(beat => sums[beat.Like].Select(sum => sum / members[beat.Like]).ToArray())];
    }

    private static void Repeat(ImmutableArray<Beat> beats, int[] path)
    {
        var firsts = Enumerable.Range(0, beats.Length).Where(i => i == 0 || beats[i].Bar != beats[i - 1].Bar).ToArray();
        var sources = Passages.Sources([.. firsts.Select(i => beats[i].Like)]);
        for (var i = 0; i < beats.Length; i++)
        {
            var source = sources[beats[i].Bar];
            path[i] = path[firsts[source] + (i - firsts[beats[i].Bar])];
        }
    }
}
