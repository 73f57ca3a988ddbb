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
        if (heard is null)
            return Unheard(meant, asked, slurred, place);
        var (at, rise) = (heard.At, sounding.Rise(heard.At, place.Next));
        var pitches = heard.Pitches;
        var fates = asked.ToDictionary(
            pitch => pitch,
            pitch =>
                pitches.Contains(pitch)
                    ? new Fate(NoteLabel.Ok, null)
                    : FateOf(pitch, asked, [.. pitches.Except(asked)], rise)
        );
        var sounds = asked
            .Where(pitch => fates[pitch].Label == NoteLabel.Ok)
            .Concat(fates.Values.Select(fate => fate.Instead).OfType<int>())
            .Distinct()
            .ToList();
        var added = new List<int>();
        // A slide rises little, and the ear takes what it leaves behind for notes.
        var isStrong = rise.Sum() >= TakeTable.Of("strong-added") * usual;
        foreach (var pitch in pitches.Distinct().Except(sounds).Except(asked).Where(_ => isStrong))
        {
            if (Cost(rise, sounds) - Cost(rise, [.. sounds, pitch]) < TakeTable.Of("gain-added"))
                continue;
            added.Add(pitch);
            sounds.Add(pitch);
        }
        // One note that is not there and one that was not meant, at one time, are a wrong note.
        foreach (var pitch in asked.Where(pitch => fates[pitch].Label == NoteLabel.Missing && added.Count > 0))
        {
            var instead = added.MinBy(other => Math.Abs(other - pitch));
            added.Remove(instead);
            fates[pitch] = new(NoteLabel.Wrong, instead);
        }
        return new([.. meant.Pitches.Select(pitch => fates[pitch])], added, at);
    }

    public IReadOnlyList<int> Added(Gesture heard, double next)
    {
        var rise = sounding.Rise(heard.At, next);
        var strength = usual <= 0 ? 0 : rise.Sum() / usual;
        // A strong rise is a note; a fainter one must look like one, or it is the room.
        return
            strength >= TakeTable.Of("strong-added")
            || (strength >= TakeTable.Of("faint-added") && Cost(rise, heard.Pitches) < TakeTable.Of("unlike-added"))
            ? heard.Pitches
            : [];
    }

    // What was not heard is looked for around its time: first as it was meant, then as another note.
    private Verdict Unheard(Gesture meant, List<int> asked, bool slurred, Place place)
    {
        var (reach, apart) = (TakeTable.Of("reach"), TakeTable.Of("together"));
        var from = Math.Max(place.Expected - reach, place.Before + apart);
        var to = Math.Min(place.Expected + reach, place.Next - apart);
        var faint = TakeTable.Of(slurred ? "faint-slur" : "faint") * usual;
        var (likest, when) = (TakeTable.Of("unlike"), double.NaN);
        for (var at = from; at <= to; at += TakeTable.Of("look-step"))
        {
            var rise = sounding.Rise(at, place.Next);
            var own = rise.Sum() < faint ? double.MaxValue : Cost(rise, asked);
            if (own < likest)
                (likest, when) = (own, at);
        }
        if (!double.IsNaN(when))
        {
            var fates = asked.ToDictionary(
                pitch => pitch,
                pitch => FateOf(pitch, asked, [], sounding.Rise(when, place.Next))
            );
            var onset =
                sounding.Attack(when - TakeTable.Of("look-step"), when + TakeTable.Of("look-step"))?.Onset ?? when;
            return new([.. meant.Pitches.Select(pitch => fates[pitch])], [], onset);
        }
        if (from >= to || sounding.Attack(from, to) is not { } attack)
            return Verdict.Missing(meant);
        var other = sounding.Rise(attack.Onset, place.Next);
        var instead = Enumerable
            .Range(shapes.Lowest, shapes.Highest - shapes.Lowest + 1)
            .MinBy(pitch => Cost(other, [pitch]));
        // What no note explains is a noise, not another note.
        return other.Sum() < faint || Cost(other, [instead]) >= TakeTable.Of("unlike")
            ? Verdict.Missing(meant)
            : new([.. meant.Notes.Select(_ => new Fate(NoteLabel.Wrong, instead))], [], attack.Onset);
    }

    // Whether one of the notes of a gesture is in a rise, or which other note explains it better.
    private Fate FateOf(int pitch, List<int> asked, List<int> heard, float[] rise)
    {
        List<int> rest = [.. asked.Where(other => other != pitch)];
        var own = Cost(rise, asked);
        var (instead, best) = Enumerable
            .Range(shapes.Lowest, shapes.Highest - shapes.Lowest + 1)
            .Except(asked)
            .Select(other => (other, Cost(rise, [.. rest, other])))
            .MinBy(one => one.Item2);
        // Another note may sound with the one meant, and more clearly.
        if (own - best >= TakeTable.Of("gain-wrong"))
        {
            if (best - Cost(rise, [.. asked, instead]) >= TakeTable.Of("gain-beside"))
                return new(NoteLabel.Ok, null);
            // What was heard there is believed before what fits a little better.
            var near = heard.Where(other => own - Cost(rise, [.. rest, other]) >= TakeTable.Of("gain-wrong")).ToList();
            return new(NoteLabel.Wrong, near.Count > 0 ? near.MinBy(other => Cost(rise, [.. rest, other])) : instead);
        }
        return new(Cost(rise, rest) - own >= TakeTable.Of("gain-present") ? NoteLabel.Ok : NoteLabel.Missing, null);
    }

    private double Cost(float[] rise, IReadOnlyList<int> pitches) => Explanation.Of(rise, pitches, shapes).Cost;
}
