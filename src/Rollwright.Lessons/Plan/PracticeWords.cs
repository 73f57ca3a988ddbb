using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Lessons.Practice;

namespace Rollwright.Lessons.Plan;

/// <summary>How hard a break is and how it is learnt, in short.</summary>
internal static class PracticeWords
{
    // The hardest of them are named; the others are practised the same way.
    private const int Named = 2;

    public static ImmutableArray<string> Of(Break played, PracticeHabits habits)
    {
        var target = played.Tempo.PerMinute;
        var works = PhraseWork.Of(played, target, habits);
        var unit = played.Tempo.UnitName;
        var words = ImmutableArray.CreateBuilder<string>();
        var comfortable = works.Min(work => work.Comfortable);
        if (comfortable is { } all)
        {
            if (all < target)
                words.Add(
                    $"All of it is comfortable up to {unit} = {all:0}; the tempo to get to is {target:0}, which asks for practice or an easier version."
                );
            else
                words.Add($"The tempo to get to is {unit} = {target:0}.");
        }
        if (comfortable >= target)
            words.Add(
                $"No bar is hard for the hands at that tempo. Phrase {works[0].Phrase.Number} ({works[0].Loop.Name}) asks most of them: give it the most time."
            );
        else
            foreach (var work in works.Where(work => work.Comfortable is not null).Take(Named))
                words.Add(
                    $"Phrase {work.Phrase.Number} ({work.Loop.Name}) is {(work == works[0] ? "the hardest" : "the next")}: {work.HardPlace}, {work.Why}; start it at {work.Ladder.Start:0}."
                );
        var ladder = TempoLadder.Of(comfortable, target, habits);
        var last =
            Math.Abs(Math.IEEERemainder(ladder.Target - ladder.Start, ladder.Step)) < 0.5
                ? ""
                : " (the last step is smaller)";
        words.Add(
            $"The ladder: from {unit} = {ladder.Start:0} in steps of {ladder.Step:0} to {ladder.Target:0}{last}; up after {ladder.Clean} clean passes in a row, down after {ladder.Spoiled} with a mistake."
        );
        words.Add(
            $"Once you know the notes, practise {(habits.New == 1 ? "one phrase" : $"{habits.New} phrases")} a day, the hardest first: {Words.Counting.Listed([.. works.Select(work => $"{work.Phrase.Number}")])}; repeat {(habits.New == 1 ? "it" : "them")} after {Words.Counting.Listed([.. habits.Returns.Take(3).Select(day => $"{day}")])} days."
        );
        return words.ToImmutable();
    }
}
