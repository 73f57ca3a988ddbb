using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;

namespace Rollwright.Lessons.Practice;

/// <summary>How a break is learnt: what is hard and why, today's session, and the days to come.</summary>
/// <param name="Target">Units of the break's tempo a minute that are asked for.</param>
/// <param name="Comfortable">Units a minute up to which all of it is comfortable; null where nothing asks for time.</param>
/// <param name="Works">The phrases to be learnt, hardest first, equal ones once.</param>
/// <param name="Today">The session of the first day.</param>
/// <param name="Coming">
/// The days after it on which there is something to do, as they come if every day goes well; what is really due is worked out
/// anew each day from what was played.
/// </param>
public sealed record PracticePlan(
    double Target,
    double? Comfortable,
    ImmutableArray<PhraseWork> Works,
    Session Today,
    ImmutableArray<Session> Coming
)
{
    /// <summary>More days than this are not planned ahead.</summary>
    public const int MostDays = 100;

    // How far a good day brings a phrase, in rungs (assumption).
    private const int GoodDay = 2;

    /// <param name="played">The break.</param>
    /// <param name="habits">How the person practises.</param>
    /// <param name="history">What was played before.</param>
    /// <param name="today">The first day.</param>
    /// <param name="days">Days looked ahead, the first among them, 1 to <see cref="MostDays"/>.</param>
    /// <param name="target">Units of its tempo a minute; null for the break's own tempo.</param>
    /// <exception cref="ArgumentOutOfRangeException">Days or tempo are out of their range.</exception>
    /// <exception cref="ArgumentException">The break has no note.</exception>
    public static PracticePlan Of(
        Break played,
        PracticeHabits habits,
        IReadOnlyCollection<PracticeRecord> history,
        DateOnly today,
        int days = 14,
        double? target = null
    )
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(history);
        if (days is not (>= 1 and <= MostDays))
            throw new ArgumentOutOfRangeException(nameof(days), $"A plan is made for 1 to {MostDays} days.");
        if (played.Bars.All(bar => bar.Strokes.IsEmpty))
            throw new ArgumentException("There is nothing to practise: the break has no note.", nameof(played));
        var asked = target ?? played.Tempo.PerMinute;
        var works = PhraseWork.Of(played, asked, habits);
        var first = Session.For(played, works, habits, history, today);
        List<PracticeRecord> told = [.. history, .. AfterAGoodDay(first, works, history)];
        var coming = ImmutableArray.CreateBuilder<Session>();
        for (var i = 1; i < days; i++)
        {
            var session = Session.For(played, works, habits, told, today.AddDays(i));
            if (session.New.IsEmpty && session.Due.IsEmpty)
                continue;
            coming.Add(session);
            told.AddRange(AfterAGoodDay(session, works, told));
        }
        return new(asked, works.Min(work => work.Comfortable), works, first, coming.ToImmutable());
    }

    private static IEnumerable<PracticeRecord> AfterAGoodDay(
        Session session,
        ImmutableArray<PhraseWork> works,
        IReadOnlyCollection<PracticeRecord> before
    )
    {
        var days = session.New.Concat(session.Due).ToList();
        return
        [
            .. from work in works
            where days.Contains(work.Phrase.Number)
            let best = before
                .Where(record => record.Phrase == work.Phrase.Number)
                .Select(record => record.Tempo)
                .DefaultIfEmpty(work.Ladder.Start)
                .Max()
            let tempo = work.Ladder.At(best + (GoodDay * work.Ladder.Step)).Tempo
            select new PracticeRecord(session.Day, work.Phrase.Number, tempo, work.Ladder.Clean * GoodDay, 0),
        ];
    }
}
