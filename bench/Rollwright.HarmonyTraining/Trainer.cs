using Rollwright.Arranging.Chording;

namespace Rollwright.HarmonyTraining;

/// <summary>How the numbers are trained.</summary>
/// <param name="Rounds">How often every tune is seen.</param>
/// <param name="Rate">The first step's size.</param>
/// <param name="Shrink">Weight of the squares of all numbers, for each tune seen.</param>
internal sealed record TrainingPlan(int Rounds = 12, double Rate = 0.15, double Shrink = 0.02);

/// <summary>
/// Climbs to the numbers under which people's chords are likeliest, given the melodies: stochastic gradients with steps of
/// their own for each number (AdaGrad: Duchi, Hazan, Singer 2011), tune by tune in a fixed order.
/// </summary>
internal sealed class Trainer(TrainingPlan plan)
{
    private readonly HarmonyTable table = HarmonyTable.Empty();
    private readonly double[] chordSlope = new double[HarmonyRows.Count * Triad.Count];
    private readonly double[] chordSquares = new double[HarmonyRows.Count * Triad.Count];
    private readonly double[] changeSlope = new double[HarmonyRows.ChangeNames.Length];
    private readonly double[] changeSquares = new double[HarmonyRows.ChangeNames.Length];

    public HarmonyTable Train(IReadOnlyList<TaughtTune> tunes, Action<int, double>? report = null)
    {
        var random = new Random(1);
        var order = Enumerable.Range(0, tunes.Count).ToArray();
        for (var round = 0; round < plan.Rounds; round++)
        {
            random.Shuffle(order);
            var likelihood = 0.0;
            foreach (var index in order)
                likelihood += Learn(tunes[index], tunes.Count);
            report?.Invoke(round, likelihood / tunes.Count);
        }
        return table;
    }

    private double Learn(TaughtTune tune, int count)
    {
        Array.Clear(chordSlope);
        Array.Clear(changeSlope);
        var model = new ChordModel(table);
        var taught = Collect(model, tune, tune.Known, 1);
        var free = Collect(model, tune, null, -1);
        // The pull towards zero is shared out over the tunes.
        Climb(table.Chords, chordSlope, chordSquares, count);
        Climb(table.Changes, changeSlope, changeSquares, count);
        return taught - free;
    }

    private void Climb(double[] values, double[] slopes, double[] squares, int count)
    {
        for (var i = 0; i < values.Length; i++)
        {
            if (slopes[i] == 0 && values[i] == 0)
                continue;
            var slope = slopes[i] - (plan.Shrink * values[i]);
            squares[i] += slope * slope;
            values[i] += plan.Rate * slope / Math.Sqrt(1 + squares[i]);
        }
    }

    private double Collect(ChordModel model, TaughtTune tune, int[]? known, double sign)
    {
        var beats = tune.Beats;
        var answer = model.Ask(beats, known);
        for (var i = 0; i < beats.Length; i++)
        {
            var beat = beats[i];
            foreach (var (row, from, amount) in beat.Said)
            {
                for (var t = 0; t < Triad.Count; t++)
                    chordSlope[(row * Triad.Count) + Triad.SeenFrom(t, from)] += sign * amount * answer.Marginals[i][t];
            }
            if (beat.Before >= 0)
                CollectStep(model, beat, answer.Outside[i], answer.Up[i], sign);
        }
        return answer.LogTotal;
    }

    private readonly double[] pairs = new double[Triad.Count * Triad.Count];

    private void CollectStep(ChordModel model, Beat beat, double[] outside, double[] up, double sign)
    {
        var steps = model.StepsOf(beat);
        var change = model.Change(beat);
        var sum = 0.0;
        for (var from = 0; from < Triad.Count; from++)
        {
            for (var to = 0; to < Triad.Count; to++)
            {
                var pair = outside[from] == 0 || up[to] == 0 ? 0 : outside[from] * up[to] * model.Pair(beat, steps, change, from, to);
                pairs[(from * Triad.Count) + to] = pair;
                sum += pair;
            }
        }
        var changes = 0.0;
        for (var from = 0; from < Triad.Count; from++)
        {
            var seenFrom = Triad.SeenFrom(from, beat.Tonic);
            for (var to = 0; to < Triad.Count; to++)
            {
                var share = sign * pairs[(from * Triad.Count) + to] / sum;
                if (share == 0)
                    continue;
                var seenTo = Triad.SeenFrom(to, beat.Tonic);
                chordSlope[(HarmonyRows.After(beat.Key, false, seenFrom) * Triad.Count) + seenTo] += share;
                if (beat.IsEnd)
                    chordSlope[(HarmonyRows.After(beat.Key, true, seenFrom) * Triad.Count) + seenTo] += share;
                chordSlope[(HarmonyRows.Moved(from % 2) * Triad.Count) + Triad.SeenFrom(to, from / 2)] += share;
                if (from != to)
                    changes += share;
            }
        }
        foreach (var row in beat.Changes)
            changeSlope[row] += changes;
    }
}
