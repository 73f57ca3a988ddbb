using System.Collections.Immutable;

namespace Rollwright.Lessons.Practice;

/// <summary>An exercise under way: where on its ladder one stands.</summary>
/// <param name="Exercise">What is played.</param>
/// <param name="Rung">The tempo of the next pass, and what was played at it.</param>
public sealed record ExerciseUnderWay(Exercise Exercise, Rung Rung)
{
    public static ExerciseUnderWay Of(Exercise exercise)
    {
        ArgumentNullException.ThrowIfNull(exercise);
        return new(exercise, exercise.Ladder.At(exercise.Start));
    }

    /// <summary>Tempos of the ladder, from its start to its target.</summary>
    public ImmutableArray<double> Tempos
    {
        get
        {
            var ladder = Exercise.Ladder;
            var below = (int)Math.Ceiling((ladder.Target - ladder.Start) / ladder.Step);
            return [.. Enumerable.Range(0, below).Select(i => ladder.Start + (i * ladder.Step)), ladder.Target];
        }
    }

    /// <summary>Index among <see cref="Tempos"/> of the last that is not faster than the next pass.</summary>
    public int At => Math.Max(0, Tempos.Count(tempo => tempo <= Rung.Tempo + 1e-9) - 1);

    /// <summary>Where one stands after one more pass, and what it adds to what is kept of the day.</summary>
    /// <param name="loop">Index of the loop that was played.</param>
    /// <param name="wasClean">Whether it was played without a mistake.</param>
    /// <param name="day">The day.</param>
    /// <returns>
    /// A tempo is kept only where whole phrases are played with both hands. In which phrase of several a mistake was is not
    /// known: then it counts for the ladder alone.
    /// </returns>
    public (ExerciseUnderWay Next, ImmutableArray<PracticeRecord> Played) After(int loop, bool wasClean, DateOnly day)
    {
        var next = Exercise.Ladder.After(Rung, wasClean);
        var isReached = wasClean && (next.IsDone || next.Tempo > Rung.Tempo);
        var tempo = isReached && Exercise.Kind.IsOfPhrases() ? Rung.Tempo : 0;
        var phrases = Exercise.Phrases;
        if (phrases.Length == Exercise.Loops.Length)
            phrases = [phrases[Math.Clamp(loop, 0, phrases.Length - 1)]];
        else if (!wasClean)
            phrases = [];
        return (
            this with
            {
                Rung = next,
            },
            [.. phrases.Select(phrase => new PracticeRecord(day, phrase, tempo, wasClean ? 1 : 0, wasClean ? 0 : 1))]
        );
    }
}
