using Rollwright.Banjo.Breaks;
using Rollwright.Listening.Beside.Answers;
using Rollwright.Listening.Beside.Meanings;
using Rollwright.Music.Forms;

namespace Rollwright.Listening.Beside.Words;

/// <summary>Tells what came out of a take that follows its break.</summary>
internal sealed class TakeTeller(Break played, Comparison found)
{
    private readonly BarNumbering numbering = played.Numbering;
    private readonly NoteWords words = new(played);

    // What came out alike each time is told once.
    public IEnumerable<string> EachPhrase()
    {
        var told = new Dictionary<int, string>();
        foreach (var phrase in found.Phrases)
        {
            var words = string.Join(' ', Of(phrase));
            var isAgain = told.TryGetValue(phrase.Phrase.Number, out var before) && before == words;
            told[phrase.Phrase.Number] = words;
            yield return $"{NameOf(phrase.Phrase)}: {(isAgain ? "as the time before." : words)}";
        }
    }

    public IEnumerable<string> WholeTake()
    {
        var asked = found.Notes.Where(note => note.Label != NoteLabel.LeftOut).ToList();
        var right = asked.Count(note => note.Label == NoteLabel.Ok);
        yield return right < asked.Count ? $"{right} of {Count(asked.Count, "note")} are right."
        : asked.Count < found.Notes.Length ? $"All {Count(right, "note")} that you played of the break are right."
        : $"All {Count(right, "note")} of the break are right.";
        if (found.Higher != 0)
            yield return $"The whole take sounds {Count(Math.Abs(found.Higher), "semitone")} {(found.Higher > 0 ? "higher" : "lower")} than the break: look at the capo and the tuning. What follows takes no notice of it.";
        var paces = found.Bars.Select(bar => bar.WholeNote).OfType<double>().Select(PerMinute).Order().ToList();
        if (paces.Count > 0)
            yield return $"The tempo: {played.Tempo.UnitName} = {paces[paces.Count / 2]:0}"
                + (paces[^1] - paces[0] < 1 ? "." : $", from {paces[0]:0} to {paces[^1]:0}.");
        for (var i = 1; i < found.Stretches.Length; i++)
            yield return Jump(found.Stretches[i - 1], found.Stretches[i]);
        foreach (var span in LeftOut())
            yield return $"{Upper(span)} left out.";
        if (found.WorkOn.Length > 0)
            yield return $"Work on {string.Join(", then on ", found.WorkOn.Select(bar => $"bar {numbering[bar].Name}"))}: most went wrong there.";
    }

    private double PerMinute(double wholeNote) => 60 / (played.Tempo.Unit.ToDouble() * wholeNote);

    private string Jump(Stretch before, Stretch after)
    {
        var (from, to) = (numbering[Written(before.LastBar)].Name, numbering[Written(after.FirstBar)].Name);
        var when = $"At {Audio.Reading.Moment.Text(after.From)}";
        // To the same place of the next time through is back, too, for who listens.
        return after.FirstBar <= before.LastBar || Written(after.FirstBar) <= Written(before.LastBar)
                ? $"{when} you began again at bar {to}."
            : after.FirstBar == before.LastBar + 1 ? $"{when} you went on with bar {to} after a stop."
            : $"{when} you went from bar {from} to bar {to}.";
    }

    private int Written(int bar) => found.Meant.Bars[bar].Written;

    // Stretches of bars of which nothing was played.
    private IEnumerable<string> LeftOut()
    {
        var bars = found.Bars;
        for (var from = 0; from < bars.Length; from++)
        {
            if (!IsLeftOut(bars[from]))
                continue;
            var to = from;
            while (to + 1 < bars.Length && IsLeftOut(bars[to + 1]) && Written(to + 1) == Written(to) + 1)
                to++;
            var span = numbering.Words([.. Enumerable.Range(from, to - from + 1).Select(Written)]);
            var again = Enumerable
                .Range(0, bars.Length)
                .Any(bar => !IsLeftOut(bars[bar]) && Written(bar) == Written(from));
            yield return again ? $"one time through {span} was" : $"{span} {(from == to ? "was" : "were")}";
            from = to;
        }
    }

    private static bool IsLeftOut(BarAnswer bar) => bar.Counts is { Meant: 0, LeftOut: > 0 };

    private string NameOf(MeantPhrase phrase)
    {
        var bars = numbering.Words([.. phrase.Bars.Select(Written)]);
        var again = found.Phrases.Any(other => other.Phrase.Number == phrase.Number && other.Phrase.Pass > 1);
        var pass = !again
            ? ""
            : phrase.Pass switch
            {
                1 => ", first time",
                2 => ", second time",
                var n => $", time {n}",
            };
        return $"Phrase {phrase.Number}{pass} ({bars})";
    }

    private IEnumerable<string> Of(PhraseAnswer answer)
    {
        var counts = answer.Counts;
        if (counts.Meant == 0)
        {
            yield return counts.LeftOut == 0 ? "nothing is written here." : "left out.";
            yield break;
        }
        yield return counts.Right == counts.Meant
            ? counts.Meant == 1
                ? "its one note is there."
                : $"all {Count(counts.Meant, "note")} are there{(IsEven(counts) ? ", and they are even." : ".")}"
            : $"{counts.Right} of {Count(counts.Meant, "note")} are right.";
        if (counts.LeftOut > 0)
            yield return $"{Upper(Count(counts.LeftOut, "note"))} {(counts.LeftOut == 1 ? "was" : "were")} left out.";
        var bars = answer.Phrase.Bars.ToHashSet();
        var notes = found.Notes.Where(note => bars.Contains(note.Note.Bar)).ToList();
        foreach (
            var sentence in Some(
                notes.Where(note => note.Label is NoteLabel.Wrong or NoteLabel.Missing).Select(words.Fault)
            )
        )
            yield return sentence;
        var off = notes
            .Where(note => note.Label == NoteLabel.Ok && (note.IsEarly || note.IsLate))
            .DistinctBy(note => (note.Note.Bar, note.Note.At));
        foreach (var sentence in Some(off.Select(words.OffTime)))
            yield return sentence;
        if (counts.Added > 0)
            yield return $"{Upper(Count(counts.Added, "note"))} more than written.";
        if (counts.Unevenness > TakeTable.Of("uneven"))
            yield return $"The notes are uneven, by {counts.Unevenness * 1000:0} ms: play it slower until they are alike.";
        if (Math.Abs(answer.Speeding) > TakeTable.Of("speeding"))
            yield return $"You get {(answer.Speeding > 0 ? "faster" : "slower")} here by {Math.Abs(answer.Speeding) * 100:0} %.";
    }

    private static bool IsEven(Counts counts) =>
        counts is { Meant: >= 6, Early: 0, Late: 0 } && counts.Unevenness <= TakeTable.Of("even");

    // Three at most: who is told more listens to none.
    private static IEnumerable<string> Some(IEnumerable<string> sentences)
    {
        var all = sentences.ToList();
        foreach (var sentence in all.Take(all.Count == 4 ? 4 : 3))
            yield return sentence;
        if (all.Count > 4)
            yield return $"And {all.Count - 3} more like these.";
    }

    private static string Count(int count, string what) =>
        $"{(count == 1 ? "one" : $"{count}")} {what}{(count == 1 ? "" : "s")}";

    private static string Upper(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
