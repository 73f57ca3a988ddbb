using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;

namespace Rollwright.Lessons.Practice;

/// <summary>
/// What to do on one day, given what was played before: what is due comes back, the hardest of what is left is taken up,
/// phrases take turns, the band comes in, what was new closes.
/// </summary>
/// <param name="Day">The day.</param>
/// <param name="New">Numbers of the phrases taken up.</param>
/// <param name="Due">Numbers of the phrases that come back, the most overdue first.</param>
/// <param name="Exercises">In order.</param>
public sealed record Session(
    DateOnly Day,
    ImmutableArray<int> New,
    ImmutableArray<int> Due,
    ImmutableArray<Exercise> Exercises
)
{
    /// <summary>More phrases than this do not come back on one day; the others wait (assumption).</summary>
    private const int MostReturns = 4;

    /// <param name="played">The break.</param>
    /// <param name="works">Its phrases, hardest first (<see cref="PhraseWork.Of"/>).</param>
    /// <param name="habits">How the person practises.</param>
    /// <param name="history">What was played before that day, in any order; later records are not looked at.</param>
    /// <param name="day">The day of the session.</param>
    public static Session For(
        Break played,
        ImmutableArray<PhraseWork> works,
        PracticeHabits habits,
        IReadOnlyCollection<PracticeRecord> history,
        DateOnly day
    )
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(habits);
        var before = history
            .Where(record => record.Day < day)
            .GroupBy(record => record.Phrase)
            .ToDictionary(group => group.Key, group => group.OrderBy(record => record.Day).ToList());
        var known = works.Where(work => before.ContainsKey(work.Phrase.Number)).ToList();
        var due = known
            .Select(work => (Work: work, On: DueOn(before[work.Phrase.Number], habits)))
            .Where(item => item.On <= day)
            .OrderBy(item => item.On)
            .Select(item => item.Work)
            .Take(MostReturns)
            .ToList();
        var fresh = works.Except(known).Take(habits.New).ToList();
        var maker = new ExerciseMaker(played, habits, before);
        var exercises = new List<Exercise>();
        if (known.Count > 0)
            exercises.Add(maker.WarmUp(known[^1]));
        exercises.AddRange(due.Select(maker.Return));
        exercises.AddRange(fresh.SelectMany(maker.TakeUp));
        if (fresh.Concat(due).Take(2).ToList() is [var one, var other])
            exercises.Add(maker.Alternate(one, other));
        if (PartWithBand(played, works, known, day) is { } part)
            exercises.Add(maker.WithBand(part, works));
        if (fresh.Count > 0)
            exercises.Add(maker.Close(fresh[0]));
        return new(
            day,
            [.. fresh.Select(work => work.Phrase.Number)],
            [.. due.Select(work => work.Phrase.Number)],
            Minutes.Share(exercises, habits.Minutes)
        );
    }

    private static DateOnly DueOn(List<PracticeRecord> records, PracticeHabits habits)
    {
        var days = records.Select(record => record.Day).Distinct().Count();
        return records[^1].Day.AddDays(habits.Returns[Math.Min(days, habits.Returns.Length) - 1]);
    }

    // Of the parts that are known from end to end, another one each day.
    private static Part? PartWithBand(
        Break played,
        ImmutableArray<PhraseWork> works,
        List<PhraseWork> known,
        DateOnly day
    )
    {
        var open = works.Except(known).Select(work => work.Phrase.Number).ToHashSet();
        var whole = BreakForm
            .Of(played)
            .Where(part => !part.Phrases.Any(phrase => open.Contains(phrase.Like)))
            .ToList();
        return whole.Count == 0 ? null : whole[day.DayNumber % whole.Count];
    }
}
