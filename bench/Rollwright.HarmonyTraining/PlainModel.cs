using Rollwright.Arranging.Chording;

namespace Rollwright.HarmonyTraining;

/// <summary>
/// The plain hidden Markov model to compare with: beats in written order; chances counted (one added everywhere) of a chord
/// after another, bar starts and other beats apart, and of the pitch classes struck within a beat under its chord, those
/// on the beat counted twice; Viterbi's path. It knows nothing of phrases, parts and repeats.
/// </summary>
internal sealed class PlainModel
{
    private readonly double[,,] steps = new double[4, Triad.Count, Triad.Count];
    private readonly double[,,] notes = new double[2, Triad.Count, 12];

    public PlainModel(IReadOnlyList<TaughtTune> tunes)
    {
        foreach (var tune in tunes)
        {
            var hearing = new Hearing(tune.Tune);
            var before = -1;
            foreach (var (i, beat) in tune.Beats.Index())
            {
                var here = tune.Known[i];
                if (here < 0)
                    continue;
                if (before >= 0)
                    steps[StepsTo(beat), before, here]++;
                before = here;
                foreach (var (note, share) in Heard(tune, hearing, beat).Index())
                    notes[beat.Key, here, note] += share;
            }
        }
        ToLogarithms(steps);
        ToLogarithms(notes);
    }

    public int[] Path(TaughtTune tune)
    {
        var hearing = new Hearing(tune.Tune);
        var count = tune.Beats.Length;
        var score = new double[count, Triad.Count];
        var from = new int[count, Triad.Count];
        for (var i = 0; i < count; i++)
        {
            var key = tune.Beats[i].Key;
            var heard = Heard(tune, hearing, tune.Beats[i]);
            for (var here = 0; here < Triad.Count; here++)
            {
                var best = i == 0 ? 0 : double.NegativeInfinity;
                for (var before = 0; i > 0 && before < Triad.Count; before++)
                {
                    var way = score[i - 1, before] + steps[StepsTo(tune.Beats[i]), before, here];
                    if (way > best)
                        (best, from[i, here]) = (way, before);
                }
                for (var note = 0; note < 12; note++)
                    best += heard[note] * notes[key, here, note];
                score[i, here] = best;
            }
        }
        var path = new int[count];
        path[^1] = Enumerable.Range(0, Triad.Count).MaxBy(triad => score[count - 1, triad]);
        for (var i = count - 1; i > 0; i--)
            path[i - 1] = from[i, path[i]];
        return path;
    }

    private static int StepsTo(Beat beat) => (2 * beat.Key) + (beat.Weight == BeatWeight.BarStart ? 1 : 0);

    private static double[] Heard(TaughtTune tune, Hearing hearing, Beat beat)
    {
        var bar = tune.Tune.Bars[beat.Bar];
        var end = beat.At + BeatGrid.Length(bar.Time);
        var heard = new double[12];
        foreach (var note in bar.Notes.Where(note => note.At >= beat.At && note.At < end))
            heard[hearing.AboveTonic(note.Pitch.Midi)] += note.At == beat.At ? 2 : 1;
        return heard;
    }

    private static void ToLogarithms(double[,,] counts)
    {
        for (var key = 0; key < counts.GetLength(0); key++)
        {
            for (var row = 0; row < counts.GetLength(1); row++)
            {
                var sum = 0.0;
                for (var i = 0; i < counts.GetLength(2); i++)
                    sum += counts[key, row, i] += 1;
                for (var i = 0; i < counts.GetLength(2); i++)
                    counts[key, row, i] = Math.Log(counts[key, row, i] / sum);
            }
        }
    }
}
