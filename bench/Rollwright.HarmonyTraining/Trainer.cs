using Rollwright.Arranging.Chording;

namespace Rollwright.HarmonyTraining;

/// <summary>How the numbers are trained.</summary>
/// <param name="Rounds">How often every tune is seen.</param>
/// <param name="Rate">Size of the first steps.</param>
/// <param name="Shrink">Pull of every number towards zero, at each tune seen.</param>
internal sealed record TrainingPlan(int Rounds = 24, double Rate = 0.06, double Shrink = 0.02);

/// <summary>
/// Climbs to the numbers under which people's chords are likeliest, given the melodies: gradients of one tune at a time in
/// a fixed order, with steps of their own for each number (AdaGrad: Duchi, Hazan, Singer 2011); the answer is the mean over
/// the later half of the rounds.
/// </summary>
internal sealed class Trainer(TrainingPlan plan)
{
    private readonly HarmonyTable table = HarmonyTable.Zero;
    private readonly HarmonyTable mean = HarmonyTable.Zero;
    private readonly HarmonyTable slopes = HarmonyTable.Zero;
    private readonly HarmonyTable squares = HarmonyTable.Zero;
    private readonly double[] pairs = new double[Triad.Count * Triad.Count];

    public HarmonyTable Train(IReadOnlyList<TaughtTune> tunes)
    {
        var random = new Random(1);
        var order = Enumerable.Range(0, tunes.Count).ToArray();
        var averaged = plan.Rounds - (plan.Rounds / 2);
        for (var round = 0; round < plan.Rounds; round++)
        {
            random.Shuffle(order);
            foreach (var index in order)
                Learn(tunes[index]);
            if (round < plan.Rounds - averaged)
                continue;
            Add(mean.Chords, table.Chords, 1.0 / averaged);
            Add(mean.Changes, table.Changes, 1.0 / averaged);
        }
        return mean;
    }

    // The slope of the logarithm of the chance of people's chords: what is expected with them, less what is without.
    private void Learn(TaughtTune tune)
    {
        Array.Clear(slopes.Chords);
        Array.Clear(slopes.Changes);
        var model = new ChordModel(table);
        Expect(model, tune, tune.Known, 1);
        Expect(model, tune, null, -1);
        Climb(table.Chords, slopes.Chords, squares.Chords);
        Climb(table.Changes, slopes.Changes, squares.Changes);
    }

    private void Climb(double[] values, double[] slope, double[] square)
    {
        for (var i = 0; i < values.Length; i++)
        {
            var pulled = slope[i] - (plan.Shrink * values[i]);
            square[i] += pulled * pulled;
            values[i] += plan.Rate * pulled / Math.Sqrt(1 + square[i]);
        }
    }

    private void Expect(ChordModel model, TaughtTune tune, int[]? known, double sign)
    {
        var beliefs = model.Believe(tune.Beats, known);
        for (var i = 0; i < tune.Beats.Length; i++)
        {
            var beat = tune.Beats[i];
            var chances = beliefs.At(i);
            foreach (var (row, from, amount) in beat.Evidence)
            {
                for (var triad = 0; triad < Triad.Count; triad++)
                    slopes.Chords[Cell(row, Triad.SeenFrom(triad, from))] += sign * amount * chances[triad];
            }
            if (beat.Before >= 0)
                ExpectStep(
                    model.StepTo(beat),
                    beat,
                    ChordBeliefs.Seen(beliefs.Beyond(i), beat.Tonic),
                    ChordBeliefs.Seen(beliefs.Below(i), beat.Tonic),
                    sign
                );
        }
    }

    private void ExpectStep(ChordModel.Step step, Beat beat, double[] beyond, double[] below, double sign)
    {
        var sum = 0.0;
        for (var before = 0; before < Triad.Count; before++)
        {
            for (var here = 0; here < Triad.Count; here++)
                sum += pairs[(before * Triad.Count) + here] = beyond[before] * step[before, here] * below[here];
        }
        var changes = 0.0;
        for (var before = 0; before < Triad.Count; before++)
        {
            for (var here = 0; here < Triad.Count; here++)
            {
                var share = sign * pairs[(before * Triad.Count) + here] / sum;
                slopes.Chords[Cell(HarmonyRows.After(beat.Key, before), here)] += share;
                if (beat.IsEnd)
                    slopes.Chords[Cell(HarmonyRows.Cadence(beat.Key, before), here)] += share;
                slopes.Chords[Cell(HarmonyRows.Moved(before), Triad.SeenFrom(here, before / 2))] += share;
                changes += before == here ? 0 : share;
            }
        }
        foreach (var row in beat.Changes)
            slopes.Changes[row] += changes;
    }

    private static int Cell(int row, int triad) => (row * Triad.Count) + triad;

    private static void Add(double[] sum, double[] values, double share)
    {
        for (var i = 0; i < sum.Length; i++)
            sum[i] += share * values[i];
    }
}
