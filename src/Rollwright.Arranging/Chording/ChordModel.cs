using System.Collections.Immutable;

namespace Rollwright.Arranging.Chording;

/// <summary>
/// A hidden Markov model over the beats of a tune. Its states are the 24 triads; its numbers are logarithms of odds,
/// trained on condition of the melody (a conditional random field: Lafferty, McCallum, Pereira 2001). How likely each
/// triad is at each beat is worked out exactly, by one sweep up the tree of beats and one down (forward and backward,
/// where play does not branch).
/// </summary>
internal sealed class ChordModel
{
    private readonly HarmonyTable table;

    // e^(weight) of going from one triad to the next, seen from the tonic: by key, and into a part's last bar or not.
    private readonly double[][] steps;

    public ChordModel(HarmonyTable table)
    {
        this.table = table;
        steps = [Steps(0, false), Steps(0, true), Steps(1, false), Steps(1, true)];
    }

    public static ChordModel BuiltIn { get; } = new(HarmonyTable.BuiltIn);

    /// <summary>What one beat adds: for the chord before and the chord at it, both seen from the bar's tonic.</summary>
    /// <param name="Steps">Row by row the chord before, 24 each.</param>
    /// <param name="Change">Factor wherever the chord changes.</param>
    internal readonly record struct Step(double[] Steps, double Change)
    {
        public double this[int before, int here] =>
            before == here ? Steps[(before * Triad.Count) + here] : Change * Steps[(before * Triad.Count) + here];
    }

    /// <summary>How much is for each triad at a beat, seen from the tune's tonic, neighbours aside.</summary>
    public double[] Scores(Beat beat)
    {
        var scores = new double[Triad.Count];
        foreach (var (row, from, amount) in beat.Evidence)
        {
            var weights = table.Chords.AsSpan(row * Triad.Count, Triad.Count);
            for (var triad = 0; triad < Triad.Count; triad++)
                scores[triad] += amount * weights[Triad.SeenFrom(triad, from)];
        }
        return scores;
    }

    public Step StepTo(Beat beat)
    {
        var change = 0.0;
        foreach (var row in beat.Changes)
            change += table.Changes[row];
        return new(steps[(2 * beat.Key) + (beat.IsEnd ? 1 : 0)], Math.Exp(change));
    }

    /// <summary>How likely each triad is at each beat, seen from the tune's tonic.</summary>
    /// <param name="beats">The tune's beats.</param>
    /// <param name="known">For training: the triad of each beat, -1 where it is not known.</param>
    public ChordBeliefs Believe(ImmutableArray<Beat> beats, int[]? known = null)
    {
        var beliefs = new ChordBeliefs(beats.Length);
        for (var i = 0; i < beats.Length; i++)
            beliefs.Hear(i, Scores(beats[i]), known?[i] ?? -1);
        for (var i = beats.Length - 1; i >= 0; i--)
            beliefs.PassUp(i, beats[i], StepTo(beats[i]));
        for (var i = 0; i < beats.Length; i++)
            beliefs.PassDown(i, beats[i], StepTo(beats[i]));
        return beliefs;
    }

    private double[] Steps(int key, bool isEnd)
    {
        var result = new double[Triad.Count * Triad.Count];
        for (var before = 0; before < Triad.Count; before++)
        {
            for (var here = 0; here < Triad.Count; here++)
            {
                var sum =
                    Weight(HarmonyRows.After(key, before), here)
                    + Weight(HarmonyRows.Moved(before), Triad.SeenFrom(here, before / 2));
                if (isEnd)
                    sum += Weight(HarmonyRows.Cadence(key, before), here);
                result[(before * Triad.Count) + here] = Math.Exp(sum);
            }
        }
        return result;
    }

    private double Weight(int row, int triad) => table.Chords[(row * Triad.Count) + triad];
}
