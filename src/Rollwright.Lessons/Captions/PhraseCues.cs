using System.Collections.Immutable;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Captions;

/// <summary>
/// What a viewer can read of a phrase while it is played: all of its short words where there is time, else of each bar as much as
/// there is time for, from the words that matter most. Nothing is cut off in the middle.
/// </summary>
internal static class PhraseCues
{
    // A name says most in the fewest words: what the left hand holds, what is played as one, where the tune is.
    private static readonly SentenceKind[] Order =
    [
        SentenceKind.LeftHand,
        SentenceKind.Bar,
        SentenceKind.RightHand,
        SentenceKind.Tune,
    ];

    /// <param name="time">When the phrase is played, and its bars.</param>
    /// <param name="words">The phrase, told by itself.</param>
    /// <param name="pace">How fast people read.</param>
    public static IEnumerable<Cue> Of(PhraseTime time, PhraseWords words, CaptionPace pace)
    {
        var groups = Groups(time.Bars, pace);
        var told = groups.ConvertAll(bars => words.Sentences.Where(one => bars.Any(bar => bar.Bar == one.Bars[0])));
        var whole = told.ConvertAll(sentences => Joined(sentences.Select(one => one.Short)));
        var all = Joined(whole);
        if (
            !whole.Zip(groups).All(one => pace.Fits(one.First, SecondsOf(one.Second)))
            && pace.Fits(all, time.To - time.From)
        )
            return all.Length == 0 ? [] : pace.Cues(all, time.From, time.To);
        return groups
            .Zip(told)
            .Select(one => (Bars: one.First, Words: Fitting([.. one.Second], SecondsOf(one.First), pace)))
            .Where(one => one.Words.Length > 0)
            .SelectMany(one => pace.Cues(one.Words, one.Bars[0].From, one.Bars[^1].To));
    }

    // Bars that are long enough for words of their own; what is shorter goes with its neighbour.
    private static List<ImmutableArray<BarTime>> Groups(ImmutableArray<BarTime> bars, CaptionPace pace)
    {
        var groups = new List<ImmutableArray<BarTime>>();
        foreach (var bar in bars)
        {
            if (groups.Count > 0 && SecondsOf(groups[^1]) < pace.Least)
                groups[^1] = groups[^1].Add(bar);
            else
                groups.Add([bar]);
        }
        if (groups.Count > 1 && SecondsOf(groups[^1]) < pace.Least)
        {
            groups[^2] = groups[^2].AddRange(groups[^1]);
            groups.RemoveAt(groups.Count - 1);
        }
        return groups;
    }

    private static double SecondsOf(ImmutableArray<BarTime> bars) => bars[^1].To - bars[0].From;

    // First the names, as many as there is time for; then more than the names, and what has none.
    private static string Fitting(ImmutableArray<Sentence> sentences, double seconds, CaptionPace pace)
    {
        var ranked = sentences.OrderBy(one => Array.IndexOf(Order, one.Kind)).ToList();
        var said = new Dictionary<Sentence, string>();
        foreach (
            var (sentence, words) in ranked
                .Select(one => (one, one.Brief))
                .Concat(ranked.Select(one => (one, one.Short)))
        )
        {
            var before = said.GetValueOrDefault(sentence, "");
            said[sentence] = words;
            if (words.Length == 0 || !pace.Fits(Told(), seconds))
                said[sentence] = before;
        }
        return Told();

        string Told() => Joined(sentences.Select(one => said.GetValueOrDefault(one, "")));
    }

    private static string Joined(IEnumerable<string> words) => string.Join(' ', words.Where(one => one.Length > 0));
}
