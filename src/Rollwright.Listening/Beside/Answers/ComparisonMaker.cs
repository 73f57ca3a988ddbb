using System.Collections.Immutable;
using Rollwright.Listening.Beside.Evidence;
using Rollwright.Listening.Beside.Following;
using Rollwright.Listening.Beside.Meanings;

namespace Rollwright.Listening.Beside.Answers;

/// <summary>From an alignment to what is said about it.</summary>
internal sealed class ComparisonMaker(Meant meant, Followed followed, IJudge judge, CancellationToken stop)
{
    // By note meant, of the last stretch that came past it.
    private readonly NoteAnswer?[] notes = new NoteAnswer?[meant.Notes.Length];
    private readonly double?[] starts = new double?[meant.Bars.Length];
    private readonly double?[] tempos = new double?[meant.Bars.Length];
    private readonly List<AddedNote> added = [];
    private int explained;

    public Comparison Make()
    {
        for (var i = 0; i < followed.Runs.Count; i++)
            Hear(followed.Runs[i], i == 0, i == followed.Runs.Count - 1);
        AddBetween();
        ImmutableArray<NoteAnswer> all =
        [
            .. meant.Notes.Select((note, i) => notes[i] ?? new NoteAnswer(note, NoteLabel.LeftOut)),
        ];
        var (right, asked) = (
            all.Count(note => note.Label == NoteLabel.Ok),
            all.Count(note => note.Label != NoteLabel.LeftOut)
        );
        var ofBar = all.ToLookup(note => note.Note.Bar);
        ImmutableArray<BarAnswer> bars =
        [
            .. meant.Bars.Select(
                (_, bar) =>
                    new BarAnswer(
                        bar,
                        starts[bar],
                        tempos[bar],
                        Counts.Of(ofBar[bar], added.Count(note => note.Bar == bar))
                    )
            ),
        ];
        return new()
        {
            Meant = meant,
            Follows = Follows(right, asked),
            Found = all.Length == 0 ? 0 : (double)right / all.Length,
            Notes = all,
            Added = [.. added.OrderBy(note => note.Onset)],
            Stretches = [.. followed.Runs.Select(StretchOf)],
            Bars = bars,
            Phrases =
            [
                .. meant.Phrases.Select(phrase => new PhraseAnswer(
                    phrase,
                    Counts.Of(
                        phrase.Bars.SelectMany(bar => ofBar[bar]),
                        phrase.Bars.Sum(bar => bars[bar].Counts.Added)
                    ),
                    Speeding(phrase)
                )),
            ],
            WorkOn = WorkOn(bars),
        };
    }

    // Most of what was heard is of the break, and most of the break, where it was played, was heard.
    private bool Follows(int right, int asked) =>
        right >= Math.Min(TakeTable.Of("fewest-right"), meant.Notes.Length)
        && right >= TakeTable.Of("follows") * asked
        && explained >= TakeTable.Of("follows") * followed.Heard.Count;

    private void Hear(Run run, bool isFirst, bool isLast)
    {
        var local = new LocalTempo(
            [.. run.Pairs.Select(pair => (followed.Meant[pair.Meant].At, followed.Heard[pair.Heard].At))],
            meant.WholeNote
        );
        var pairs = run.Pairs.ToDictionary(pair => pair.Meant, pair => pair.Heard);
        explained += run.Pairs.Count(pair => followed.Heard[pair.Heard].Common(followed.Meant[pair.Meant]) > 0);
        var few = (int)TakeTable.Of("few");
        var from = isFirst && run.First.Meant <= few ? 0 : run.First.Meant;
        var rest = followed.Meant.Count - 1 - run.Last.Meant;
        var to = isLast && rest <= few ? followed.Meant.Count - 1 : run.Last.Meant;
        // As of its notes, only what was added the last time through counts for a bar.
        var again = followed
            .Meant.Skip(from)
            .Take(to + 1 - from)
            .Select(gesture => meant.Notes[gesture.Notes[0]].Bar)
            .ToHashSet();
        for (var i = 0; i < added.Count; i++)
            if (added[i].Bar is { } bar && again.Contains(bar))
                added[i] = added[i] with { Bar = null };
        // Of the gestures around, the last one that was heard.
        var before = run.First.Heard - 1;
        for (var j = from; j <= to; j++)
        {
            stop.ThrowIfCancellationRequested();
            var gesture = followed.Meant[j];
            Gesture? heard = null;
            if (pairs.TryGetValue(j, out var index))
                (heard, before) = (followed.Heard[index], index);
            var expected = local.Of(gesture.At).Seconds;
            if (heard is null)
                while (
                    before + 1 < followed.Heard.Count
                    && followed.Heard[before + 1].At < expected
                    && before + 1 < NextPaired(run, j)
                )
                    before++;
            var place = new Place(
                expected,
                before >= 0 ? followed.Heard[before].At : double.MinValue,
                before + 1 < followed.Heard.Count ? followed.Heard[before + 1].At : double.MaxValue
            );
            var slurred = gesture.Notes.All(note => meant.Notes[note].IsSlurred);
            Keep(gesture, judge.Of(gesture, slurred, heard, place), local);
        }
        Time(local, followed.Meant[from].At, followed.Meant[to].At, to == followed.Meant.Count - 1);
        var used = pairs.Values.ToHashSet();
        for (var i = run.First.Heard; i <= run.Last.Heard; i++)
            if (!used.Contains(i))
                foreach (var pitch in Real(i))
                    added.Add(new(followed.Heard[i].At, pitch, BarAt(local, run, followed.Heard[i].At)));
    }

    private static int NextPaired(Run run, int gesture)
    {
        foreach (var pair in run.Pairs)
            if (pair.Meant > gesture)
                return pair.Heard;
        return int.MaxValue;
    }

    private void Keep(Gesture gesture, Verdict verdict, LocalTempo local)
    {
        var late = verdict.Onset - local.Without(gesture.At).Seconds;
        for (var i = 0; i < gesture.Notes.Length; i++)
        {
            var (note, fate) = (meant.Notes[gesture.Notes[i]], verdict.Notes[i]);
            var isThere = fate.Label is NoteLabel.Ok or NoteLabel.Wrong;
            notes[gesture.Notes[i]] = new(note, fate.Label)
            {
                Onset = isThere ? verdict.Onset : null,
                Late = isThere ? late : null,
                Instead = fate.Instead,
            };
        }
        foreach (var pitch in verdict.Added)
            added.Add(new(verdict.Onset ?? 0, pitch, meant.Notes[gesture.Notes[0]].Bar));
    }

    // A bar begins where its first note sounded, or else where the tempo around puts it.
    private void Time(LocalTempo local, double from, double to, bool toTheEnd)
    {
        for (var bar = 0; bar < meant.Bars.Length; bar++)
        {
            var (at, length) = (meant.Bars[bar].At, meant.Bars[bar].Length);
            if (at + length <= from || at > to)
                continue;
            if (at >= from - (length / 2) || starts[bar] is null)
                starts[bar] = Math.Max(0, local.Of(at).Seconds);
            if (at >= from || (at + length <= to || toTheEnd))
                tempos[bar] = local.Of(Math.Clamp(at + (length / 2), from, to)).WholeNote;
        }
        foreach (var answer in notes.OfType<NoteAnswer>().Where(note => note.Note.At >= from && note.Note.At <= to))
            if (
                answer is { Label: NoteLabel.Ok, Onset: { } onset }
                && Math.Abs(answer.Note.At - meant.Bars[answer.Note.Bar].At) < 1e-9
            )
                starts[answer.Note.Bar] = onset;
    }

    private int? BarAt(LocalTempo local, Run run, double seconds)
    {
        int? found = null;
        for (
            var bar = meant.Notes[followed.Meant[run.First.Meant].Notes[0]].Bar;
            bar <= meant.Notes[followed.Meant[run.Last.Meant].Notes[0]].Bar;
            bar++
        )
            if (found is null || local.Of(meant.Bars[bar].At).Seconds <= seconds)
                found = bar;
        return found;
    }

    private IReadOnlyList<int> Real(int heard) =>
        judge.Added(
            followed.Heard[heard],
            heard + 1 < followed.Heard.Count ? followed.Heard[heard + 1].At : double.MaxValue
        );

    // Before, between and after the stretches the break is not followed.
    private void AddBetween()
    {
        for (var i = 0; i < followed.Heard.Count; i++)
            if (!followed.Runs.Any(run => i >= run.First.Heard && i <= run.Last.Heard))
                foreach (var pitch in Real(i))
                    added.Add(new(followed.Heard[i].At, pitch, null));
    }

    private Stretch StretchOf(Run run) =>
        new(
            followed.Heard[run.First.Heard].At,
            followed.Heard[run.Last.Heard].At,
            meant.Notes[followed.Meant[run.First.Meant].Notes[0]].Bar,
            meant.Notes[followed.Meant[run.Last.Meant].Notes[0]].Bar
        );

    private double Speeding(MeantPhrase phrase)
    {
        var paces = phrase.Bars.Select(bar => tempos[bar]).OfType<double>().ToList();
        return paces.Count < 2 ? 0 : (paces[0] / paces[^1]) - 1;
    }

    // What is played twice counts once, as it went on the whole.
    private ImmutableArray<int> WorkOn(ImmutableArray<BarAnswer> bars) =>
        [
            .. bars.Where(bar => bar.Counts.Meant > 0)
                .GroupBy(bar => meant.Bars[bar.Bar].Written)
                .Select(group => (Written: group.Key, Faults: group.Average(bar => bar.Counts.Faults)))
                .Where(bar => bar.Faults >= TakeTable.Of("worth-work"))
                .OrderByDescending(bar => bar.Faults)
                .ThenBy(bar => bar.Written)
                .Take(2)
                .Select(bar => bar.Written),
        ];
}
