using Rollwright.Listening.Beside.Following;

namespace Rollwright.Listening.Beside.Evidence;

/// <summary>
/// Judges by the sound. What was heard without knowing the break comes first; where it differs, the sound itself is asked
/// again for the notes meant there, so that an error of the ear does not become the player's (as in score-informed tutoring:
/// Benetos, Klapuri and Dixon 2012; Ewert, Wang, Müller and Sandler 2016).
/// </summary>
internal sealed class SoundJudge : IJudge
{
    // Enough to learn from, whatever the length of the take.
    private const int MostKnown = 2_000;

    private readonly Sounding sounding;
    private readonly PitchShapes shapes;
    private readonly double usual;

    public SoundJudge(Sounding sounding, double cents, Followed followed, CancellationToken stop)
    {
        this.sounding = sounding;
        shapes = new(sounding.Bins, sounding.BinWidth, cents);
        var known = new List<(int Pitch, float[] Rise)>();
        foreach (var pair in followed.Runs.SelectMany(run => run.Pairs))
        {
            stop.ThrowIfCancellationRequested();
            var (heard, meant) = (followed.Heard[pair.Heard], followed.Meant[pair.Meant]);
            if (heard.Pitches.Length != 1 || meant.Pitches.Length != 1 || heard.Common(meant) != 1)
                continue;
            known.Add((meant.Pitches[0], sounding.Rise(heard.At, After(followed, pair.Heard))));
            if (known.Count == MostKnown)
                break;
        }
        shapes.Learn(known);
        usual = known.Count == 0 ? 0 : known.Select(one => (double)one.Rise.Sum()).Order().ElementAt(known.Count / 2);
    }

    private double After(Followed followed, int heard) =>
        heard + 1 < followed.Heard.Count ? followed.Heard[heard + 1].At : sounding.Duration;

    public Verdict Of(Gesture meant, bool slurred, Gesture? heard, Place place)
    {
        var asked = meant.Pitches.Distinct().ToList();
        if (heard is not null && heard.Pitches.Distinct().Count() == asked.Count && heard.Common(meant) == asked.Count)
            return Verdict.AsMeant(meant, heard.At);
        var onset = heard?.At ?? Attack(place);
        if (onset is not { } at)
            return Verdict.Missing(meant);
        var rise = sounding.Rise(at, place.Next);
        if (heard is null && rise.Sum() < TakeTable.Of(slurred ? "faint-slur" : "faint") * usual)
            return Verdict.Missing(meant);
        var pitches = heard?.Pitches ?? [];
        var fates = asked.ToDictionary(
            pitch => pitch,
            pitch =>
                pitches.Contains(pitch) ? new Fate(NoteLabel.Ok, null) : FateOf(pitch, asked, heard is not null, rise)
        );
        var sounds = asked
            .Where(pitch => fates[pitch].Label == NoteLabel.Ok)
            .Concat(fates.Values.Select(fate => fate.Instead).OfType<int>())
            .Distinct()
            .ToList();
        var added = new List<int>();
        foreach (var pitch in pitches.Distinct().Except(sounds).Except(asked))
        {
            if (Cost(rise, sounds) - Cost(rise, [.. sounds, pitch]) < TakeTable.Of("gain-added"))
                continue;
            added.Add(pitch);
            sounds.Add(pitch);
        }
        return new([.. meant.Pitches.Select(pitch => fates[pitch])], added, at);
    }

    // The strongest attack where a gesture should be, if there is room for one between its neighbours.
    private double? Attack(Place place)
    {
        var (reach, apart) = (TakeTable.Of("reach"), TakeTable.Of("together"));
        var from = Math.Max(place.Expected - reach, place.Before + apart);
        var to = Math.Min(place.Expected + reach, place.Next - apart);
        return from < to ? sounding.Attack(from, to).Onset : null;
    }

    // Whether one of the notes of a gesture is in a rise, or which other note explains it better.
    private Fate FateOf(int pitch, List<int> asked, bool wasHeard, float[] rise)
    {
        List<int> rest = [.. asked.Where(other => other != pitch)];
        var own = Cost(rise, asked);
        var (instead, best) = Enumerable
            .Range(shapes.Lowest, shapes.Highest - shapes.Lowest + 1)
            .Except(asked)
            .Select(other => (other, Cost(rise, [.. rest, other])))
            .MinBy(one => one.Item2);
        if (own - best >= TakeTable.Of("gain-wrong"))
            // What nobody heard as a note and no note explains is a noise, not another note.
            return wasHeard || best < TakeTable.Of("unlike")
                ? new(NoteLabel.Wrong, instead)
                : new(NoteLabel.Missing, null);
        return new(Cost(rise, rest) - own >= TakeTable.Of("gain-present") ? NoteLabel.Ok : NoteLabel.Missing, null);
    }

    private double Cost(float[] rise, IReadOnlyList<int> pitches) => Explanation.Of(rise, pitches, shapes).Cost;
}
