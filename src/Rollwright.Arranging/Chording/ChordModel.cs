using System.Collections.Immutable;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// A hidden Markov model over the beats of a tune, its hidden states the 24 triads, its numbers trained on condition of
/// the melody. Exact: marginals come from one sweep up and one down the tree of beats.
/// </summary>
internal sealed class ChordModel
{
    private readonly HarmonyTable table;
    private readonly double[][] steps = new double[4][];

    public ChordModel(HarmonyTable table)
    {
        this.table = table;
        for (var kind = 0; kind < 4; kind++)
            steps[kind] = Steps(kind >> 1, (kind & 1) == 1);
    }

    public sealed record Answer(double[][] Marginals, double LogTotal, double[][] Up, double[][] Outside);

    /// <summary>e^(weight) of going from one triad to another, both seen from the tonic.</summary>
    private double[] Steps(int key, bool isEnd)
    {
        var result = new double[Triad.Count * Triad.Count];
        for (var from = 0; from < Triad.Count; from++)
        {
            for (var to = 0; to < Triad.Count; to++)
            {
                var sum =
                    table.Chords[(HarmonyRows.After(key, false, from) * Triad.Count) + to]
                    + table.Chords[(HarmonyRows.Moved(from % 2) * Triad.Count) + Triad.SeenFrom(to, from / 2)];
                if (isEnd)
                    sum += table.Chords[(HarmonyRows.After(key, true, from) * Triad.Count) + to];
                result[(from * Triad.Count) + to] = Math.Exp(sum);
            }
        }
        return result;
    }

    public double[] Scores(Beat beat)
    {
        var scores = new double[Triad.Count];
        foreach (var (row, from, amount) in beat.Said)
        {
            var start = row * Triad.Count;
            for (var triad = 0; triad < Triad.Count; triad++)
                scores[triad] += amount * table.Chords[start + Triad.SeenFrom(triad, from)];
        }
        return scores;
    }

    public double Change(Beat beat)
    {
        var sum = 0.0;
        foreach (var row in beat.Changes)
            sum += table.Changes[row];
        return Math.Exp(sum);
    }

    public double[] StepsOf(Beat beat) => steps[(beat.Key << 1) | (beat.IsEnd ? 1 : 0)];

    public double Pair(Beat beat, double[] stepsOf, double change, int from, int to)
    {
        var step = stepsOf[(Triad.SeenFrom(from, beat.Tonic) * Triad.Count) + Triad.SeenFrom(to, beat.Tonic)];
        return from == to ? step : step * change;
    }

    /// <param name="known">For training: the triad of each beat where it is known, otherwise -1.</param>
    public Answer Ask(ImmutableArray<Beat> beats, int[]? known = null)
    {
        var count = beats.Length;
        var up = new double[count][];
        var message = new double[count][];
        var outside = new double[count][];
        var logTotal = 0.0;
        for (var i = 0; i < count; i++)
        {
            var scores = Scores(beats[i]);
            var most = scores.Max();
            for (var t = 0; t < Triad.Count; t++)
                scores[t] = known is null || known[i] < 0 || known[i] == t ? Math.Exp(scores[t] - most) : 0;
            up[i] = scores;
            logTotal += most;
        }
        for (var i = count - 1; i >= 0; i--)
        {
            var sum = up[i].Sum();
            logTotal += Math.Log(sum);
            for (var t = 0; t < Triad.Count; t++)
                up[i][t] /= sum;
            var before = beats[i].Before;
            if (before < 0)
                continue;
            var here = message[i] = new double[Triad.Count];
            var stepsOf = StepsOf(beats[i]);
            var change = Change(beats[i]);
            for (var from = 0; from < Triad.Count; from++)
            {
                for (var to = 0; to < Triad.Count; to++)
                {
                    if (up[i][to] > 0)
                        here[from] += up[i][to] * Pair(beats[i], stepsOf, change, from, to);
                }
            }
            for (var t = 0; t < Triad.Count; t++)
                up[before][t] *= here[t];
        }
        var marginals = new double[count][];
        for (var i = 0; i < count; i++)
        {
            var before = beats[i].Before;
            var marginal = marginals[i] = (double[])up[i].Clone();
            if (before < 0)
                continue;
            var stepsOf = StepsOf(beats[i]);
            var change = Change(beats[i]);
            var beyond = outside[i] = new double[Triad.Count];
            for (var t = 0; t < Triad.Count; t++)
                beyond[t] = marginals[before][t] / message[i][t];
            var sum = 0.0;
            for (var to = 0; to < Triad.Count; to++)
            {
                if (up[i][to] == 0)
                    continue;
                var down = 0.0;
                for (var from = 0; from < Triad.Count; from++)
                {
                    if (beyond[from] > 0)
                        down += beyond[from] * Pair(beats[i], stepsOf, change, from, to);
                }
                marginal[to] *= down;
                sum += marginal[to];
            }
            for (var t = 0; t < Triad.Count; t++)
                marginal[t] /= sum;
        }
        return new(marginals, logTotal, up, outside);
    }
}
