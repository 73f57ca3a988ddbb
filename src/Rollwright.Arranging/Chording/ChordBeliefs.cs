namespace Rollwright.Arranging.Chording;

/// <summary>How likely each triad is at each beat: the state of the two sweeps, and their answer.</summary>
internal sealed class ChordBeliefs(int beats)
{
    private readonly double[][] below = new double[beats][];
    private readonly double[][] messages = new double[beats][];
    private readonly double[][] beyond = new double[beats][];
    private readonly double[][] marginals = new double[beats][];

    /// <summary>The logarithm of the sum over all ways through the tune.</summary>
    public double LogTotal { get; private set; }

    /// <summary>The chance of each triad at a beat, given the whole melody.</summary>
    public double[] At(int beat) => marginals[beat];

    /// <summary>What the beat itself and all that follows it say (up to a factor).</summary>
    public double[] Below(int beat) => below[beat];

    /// <summary>What all but the beat and its followers say about the chord before it (up to a factor).</summary>
    public double[] Beyond(int beat) => beyond[beat];

    public void Hear(int beat, double[] scores, int known)
    {
        var most = scores.Max();
        LogTotal += most;
        for (var triad = 0; triad < Triad.Count; triad++)
            scores[triad] = known < 0 || known == triad ? Math.Exp(scores[triad] - most) : 0;
        below[beat] = scores;
    }

    public void PassUp(int index, Beat beat, ChordModel.Step step)
    {
        LogTotal += Math.Log(ToOne(below[index]));
        if (beat.Before < 0)
            return;
        var here = Seen(below[index], beat.Tonic);
        var message = new double[Triad.Count];
        for (var before = 0; before < Triad.Count; before++)
        {
            var row = step.Steps.AsSpan(before * Triad.Count, Triad.Count);
            var sum = 0.0;
            for (var triad = 0; triad < Triad.Count; triad++)
                sum += row[triad] * here[triad];
            var stays = row[before] * here[before];
            message[before] = stays + (step.Change * (sum - stays));
        }
        messages[index] = Seen(message, (12 - beat.Tonic) % 12);
        for (var triad = 0; triad < Triad.Count; triad++)
            below[beat.Before][triad] *= messages[index][triad];
    }

    public void PassDown(int index, Beat beat, ChordModel.Step step)
    {
        var marginal = marginals[index] = (double[])below[index].Clone();
        if (beat.Before < 0)
            return;
        var above = beyond[index] = new double[Triad.Count];
        for (var triad = 0; triad < Triad.Count; triad++)
            above[triad] = marginals[beat.Before][triad] / messages[index][triad];
        var from = Seen(above, beat.Tonic);
        var down = new double[Triad.Count];
        for (var before = 0; before < Triad.Count; before++)
        {
            var row = step.Steps.AsSpan(before * Triad.Count, Triad.Count);
            var changed = step.Change * from[before];
            for (var triad = 0; triad < Triad.Count; triad++)
                down[triad] += row[triad] * (triad == before ? from[before] : changed);
        }
        down = Seen(down, (12 - beat.Tonic) % 12);
        for (var triad = 0; triad < Triad.Count; triad++)
            marginal[triad] *= down[triad];
        ToOne(marginal);
    }

    /// <summary>The same chances, numbered as seen from a note that lies higher by some semitones.</summary>
    public static double[] Seen(double[] chances, int semitones)
    {
        if (semitones == 0)
            return chances;
        var seen = new double[Triad.Count];
        for (var triad = 0; triad < Triad.Count; triad++)
            seen[Triad.SeenFrom(triad, semitones)] = chances[triad];
        return seen;
    }

    // Scales to a sum of one; returns what the sum was.
    private static double ToOne(double[] chances)
    {
        var sum = chances.Sum();
        for (var triad = 0; triad < Triad.Count; triad++)
            chances[triad] /= sum;
        return sum;
    }
}
