using Rollwright.Listening.Beside.Following;

namespace Rollwright.Listening.Beside.Evidence;

/// <summary>
/// Whether a gesture sounded as it was meant. What was heard without knowing the break comes first; where it differs, the
/// sound itself is asked again for the notes meant there, so that an error of the ear does not become the player's (as in
/// score-informed tutoring: Benetos, Klapuri and Dixon 2012; Ewert, Wang, Müller and Sandler 2016).
/// </summary>
internal sealed class Judge
{
    private readonly Sounding sounding;
    private readonly PitchShapes shapes;
    private readonly double usualRise;
    private readonly double usualHeight;
    private readonly double usualLag;

    public Judge(Sounding sounding, PitchShapes shapes, Followed followed, CancellationToken stop)
    {
        (this.sounding, this.shapes) = (sounding, shapes);
        var known = new List<(int Pitch, float[] Rise)>();
        var (heights, lags) = (new List<double>(), new List<double>());
        foreach (var pair in followed.Runs.SelectMany(run => run.Pairs))
        {
            stop.ThrowIfCancellationRequested();
            var (heard, meant) = (followed.Heard[pair.Heard], followed.Meant[pair.Meant]);
            if (heard.Pitches.Length != 1 || meant.Pitches.Length != 1 || heard.Common(meant) != 1)
                continue;
            if (known.Count == MostKnown)
                break;
            var next = pair.Heard + 1 < followed.Heard.Count ? followed.Heard[pair.Heard + 1].At : sounding.Duration;
            var (onset, height) = Near(heard.At);
            known.Add((meant.Pitches[0], sounding.Rise(onset, next)));
            heights.Add(height);
            lags.Add(heard.At - onset);
        }
        shapes.Learn(known);
        usualRise = Median(known.ConvertAll(one => (double)one.Rise.Sum()));
        (usualHeight, usualLag) = (Median(heights), Median(lags));
    }

    // Enough to learn from, whatever the length of the take.
    private const int MostKnown = 2_000;

    private static double Median(List<double> values) => values.Count == 0 ? 0 : values.Order().ElementAt(values.Count / 2);

    private (double Onset, double Height) Near(double heard) =>
        sounding.Attack(heard - TakeTable.Of("look-back"), heard + TakeTable.Of("look-on"));

    /// <summary>Where a gesture that was heard begins, to some milliseconds.</summary>
    public double OnsetOf(Gesture heard)
    {
        var (onset, height) = Near(heard.At);
        return height < 0.25 * usualHeight ? heard.At - usualLag : onset;
    }

    /// <summary>What a gesture that was meant came to.</summary>
    /// <param name="meant">The gesture.</param>
    /// <param name="heard">What was heard of it without knowing the break; empty where nothing was.</param>
    /// <param name="slurred">Whether the left hand alone makes it.</param>
    /// <param name="onset">Seconds: where it begins, or where an attack comes nearest to where it should.</param>
    /// <param name="next">Seconds: where the next gesture begins.</param>
    public Verdict Of(Gesture meant, IReadOnlyList<int> heard, bool slurred, double onset, double next)
    {
        var notes = new Fate[meant.Pitches.Length];
        var asked = meant.Pitches.Distinct().ToList();
        var surplus = heard.Distinct().Except(asked).ToList();
        if (surplus.Count == 0 && asked.TrueForAll(heard.Contains))
            return new([.. notes.Select(_ => new Fate(NoteLabel.Ok, null))], []);
        var rise = sounding.Rise(onset, next);
        if (heard.Count == 0 && rise.Sum() < TakeTable.Of(slurred ? "faint-slur" : "faint") * usualRise)
            return new([.. notes.Select(_ => new Fate(NoteLabel.Missing, null))], []);
        var added = new List<int>();
        var fates = asked.ToDictionary(pitch => pitch, pitch => heard.Contains(pitch) ? new Fate(NoteLabel.Ok, null) : FateOf(pitch, asked, rise));
        var sounds = asked.Where(pitch => fates[pitch].Label == NoteLabel.Ok).Concat(fates.Values.Select(fate => fate.Instead).OfType<int>()).Distinct().ToList();
        foreach (var pitch in surplus.Except(sounds))
        {
            if (Cost(rise, sounds) - Cost(rise, [.. sounds, pitch]) < TakeTable.Of("gain-added"))
                continue;
            added.Add(pitch);
            sounds.Add(pitch);
        }
        return new([.. meant.Pitches.Select(pitch => fates[pitch])], added);
    }

    // Whether one of the notes of a gesture is in a rise, or which other note explains it better.
    private Fate FateOf(int pitch, List<int> asked, float[] rise)
    {
        List<int> rest = [.. asked.Where(other => other != pitch)];
        var own = Cost(rise, asked);
        var (instead, better) = Enumerable
            .Range(shapes.Lowest, shapes.Highest - shapes.Lowest + 1)
            .Except(asked)
            .Select(other => (other, own - Cost(rise, [.. rest, other])))
            .MaxBy(one => one.Item2);
        if (better >= TakeTable.Of("gain-wrong"))
            return new(NoteLabel.Wrong, instead);
        return new(Cost(rise, rest) - own >= TakeTable.Of("gain-present") ? NoteLabel.Ok : NoteLabel.Missing, null);
    }

    /// <summary>Whether a gesture that nothing meant explains is a note of its own, and no echo or ghost of the ear.</summary>
    /// <param name="before">What else sounds close by: pitches that it may be an echo of.</param>
    public bool IsReal(Gesture heard, double next, IReadOnlyList<int> before)
    {
        var rise = sounding.Rise(OnsetOf(heard), next);
        return rise.Sum() >= TakeTable.Of("faint-added") * usualRise && !heard.Pitches.All(before.Contains);
    }

    private double Cost(float[] rise, IReadOnlyList<int> pitches) => Explanation.Of(rise, pitches, shapes).Cost;
    public string Features(Gesture heard, double next)
    {
        var rise = sounding.Rise(OnsetOf(heard), next);
        return $"rise {rise.Sum()/usualRise:0.00} height {sounding.Attack(heard.At - 0.035, heard.At + 0.015).Height/usualHeight:0.00} cost {Cost(rise, heard.Pitches):0.000}";
    }
}
