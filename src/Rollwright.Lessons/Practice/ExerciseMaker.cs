using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Words;

namespace Rollwright.Lessons.Practice;

/// <summary>Makes the exercises of a session, with their words.</summary>
/// <param name="played">The break.</param>
/// <param name="habits">How the person practises.</param>
/// <param name="before">What was played on days before, by phrase, in order of days.</param>
internal sealed class ExerciseMaker(
    Break played,
    PracticeHabits habits,
    IReadOnlyDictionary<int, List<PracticeRecord>> before
)
{
    private readonly string unit = played.Tempo.UnitName;

    public Exercise WarmUp(PhraseWork work) =>
        One(
            ExerciseKind.WarmUp,
            work,
            work.Loop,
            work.Ladder.Start,
            $"{Named(work)}, slowly and evenly, at {At(work.Ladder.Start)}.",
            "The easiest of what you know, to get warm."
        );

    public Exercise Return(PhraseWork work)
    {
        var start = Overnight(work);
        return One(
            ExerciseKind.Return,
            work,
            work.Loop,
            start,
            $"{Named(work)} again, from {At(start)}; {UpAndDown(work.Ladder)}.",
            "What comes back after a night or more is kept (Simmons 2012); it starts a little below where you left it."
        );
    }

    /// <summary>From the right hand alone over the hard bar, with ever more around it, to the phrase.</summary>
    public IEnumerable<Exercise> TakeUp(PhraseWork work)
    {
        var bar = Loop.Of(played, work.Hard);
        var pair = bar.Bars.Length > 1 ? bar : bar.WithNeighbour(played, work.Phrase.Bars);
        var start = work.Ladder.Start;
        yield return One(
            ExerciseKind.RightHand,
            work,
            bar,
            start,
            $"The right hand alone, {bar.Name}, all strings open, at {At(start)}: look away from it when it runs.",
            "One hand at a time: the roll must run by itself before the left hand asks for your eyes."
        );
        yield return One(
            ExerciseKind.Bar,
            work,
            bar,
            start,
            $"{Upper(bar.Name)} with both hands, from {At(start)}; {UpAndDown(work.Ladder)}.",
            work.Why.Length > 0 ? $"The hardest of the phrase is {work.HardPlace}: {work.Why}." : ""
        );
        if (pair != bar && pair.Name != work.Loop.Name)
            yield return One(
                ExerciseKind.WithNeighbour,
                work,
                pair,
                start,
                $"{Upper(pair.Name)}, from {At(start)}: the hard bar and the way into its neighbour.",
                "Most stumbles are between bars, not in them."
            );
        if (work.Loop.Name != bar.Name)
            yield return One(
                ExerciseKind.Phrase,
                work,
                work.Loop,
                start,
                $"{Named(work)}, from {At(start)}; {UpAndDown(work.Ladder)}.",
                work.Also.IsEmpty ? "" : $"You get {Listed(work.Also)} with it: played the same."
            );
    }

    public Exercise Alternate(PhraseWork one, PhraseWork other)
    {
        var slower = one.Ladder.Target <= other.Ladder.Target ? one : other;
        var start = Math.Min(Overnight(one), Overnight(other));
        return new(
            ExerciseKind.Alternate,
            [one.Phrase.Number, other.Phrase.Number],
            [one.Loop, other.Loop],
            slower.Ladder,
            start,
            1,
            $"{Named(one)} and {Named(other).ToLowerInvariant()} in turn, one after the other, at {At(start)}.",
            "Slower at first and often better two days later (Abushanab and Bishara 2013; Carter and Grahn 2016); other "
                + "studies found no difference: leave it out if it spoils your day."
        );
    }

    /// <summary>The whole part once through; its ladder is that of its hardest phrase.</summary>
    public Exercise WithBand(Part part, ImmutableArray<PhraseWork> works)
    {
        var mine = works.First(work => part.Phrases.Any(phrase => phrase.Like == work.Phrase.Number));
        var loop = Loop.Of(
            played,
            [.. part.Phrases.Where(phrase => phrase.Ending is "" or "1.").SelectMany(phrase => phrase.Bars)]
        );
        var start = Overnight(mine);
        return new(
            ExerciseKind.WithBand,
            [.. part.Phrases.Select(phrase => phrase.Number)],
            [loop],
            mine.Ladder,
            start,
            1,
            $"Part {part.Name} with the band at {At(start)}: play two bars, rest two while the band goes on, then the other way "
                + "round, then all.",
            "Coming in again in time is what a jam asks for."
        );
    }

    public Exercise Close(PhraseWork work) =>
        One(
            ExerciseKind.Close,
            work,
            work.Loop,
            work.Ladder.Start,
            $"{Named(work)} once more, slowly, clean; then stop.",
            "Another melody learnt after it can cost what the night would add; playing the first again restores it (Allen 2013)."
        );

    private static Exercise One(
        ExerciseKind kind,
        PhraseWork work,
        Loop loop,
        double start,
        string words,
        string why
    ) => new(kind, [work.Phrase.Number], [loop], work.Ladder, start, 1, words, why);

    // Some rungs below the fastest that was clean on the last day; the ladder's start where none was.
    private double Overnight(PhraseWork work)
    {
        if (!before.TryGetValue(work.Phrase.Number, out var records))
            return work.Ladder.Start;
        var last = records.Where(record => record.Day == records[^1].Day).Max(record => record.Tempo);
        return work.Ladder.At(last - (habits.Overnight * work.Ladder.Step)).Tempo;
    }

    private string UpAndDown(TempoLadder ladder) =>
        $"{Times(ladder.Clean)} clean in a row, then {ladder.Step:0} faster, up to {At(ladder.Target)}; "
        + $"{Times(ladder.Spoiled)} with a mistake, then {ladder.Step:0} slower";

    private string At(double tempo) => $"{unit} = {tempo:0}";

    private static string Times(int times) =>
        times switch
        {
            1 => "once",
            2 => "twice",
            _ => $"{times} times",
        };

    private static string Named(PhraseWork work) => $"Phrase {work.Phrase.Number} ({work.Loop.Name})";

    private static string Listed(ImmutableArray<int> phrases) =>
        $"{(phrases.Length == 1 ? "phrase" : "phrases")} {Counting.Listed([.. phrases.Select(number => $"{number}")])}";

    private static string Upper(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
