using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Practice;

namespace Rollwright.Lessons.Documents;

/// <summary>The days of practice as a table in Markdown (pipes).</summary>
internal static class PlanTable
{
    // Two weeks fit a page; what comes later comes back from what was really played.
    private const int Days = 14;

    public static string Of(Break played)
    {
        // Which day it is does not matter: days are counted from the first.
        var first = new DateOnly(2000, 1, 1);
        var plan = PracticePlan.Of(played, PracticeHabits.Usual, [], first, Days);
        var works = plan.Works.ToDictionary(work => work.Phrase.Number);
        var unit = played.Tempo.UnitName;
        var lines = new List<string>
        {
            $"| Day | New phrases | Phrases that come back | Tempo ({unit}) |",
            "| --- | --- | --- | --- |",
        };
        foreach (var session in plan.Coming.Prepend(plan.Today))
        {
            var tempos = session
                .New.Select(number => $"{works[number].Ladder.Start:0} to {works[number].Ladder.Target:0}")
                .Distinct();
            lines.Add(
                $"| {1 + session.Day.DayNumber - first.DayNumber} | {Listed(session.New)} | {Listed(session.Due)} | {string.Join("; ", tempos)} |"
            );
        }
        return string.Join('\n', lines);
    }

    private static string Listed(IEnumerable<int> numbers) => string.Join(", ", numbers);
}
