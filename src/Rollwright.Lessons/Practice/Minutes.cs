using System.Collections.Immutable;

namespace Rollwright.Lessons.Practice;

/// <summary>Shares the minutes of a session among its exercises.</summary>
internal static class Minutes
{
    /// <summary>
    /// By weight of their kind, whole minutes, at least one each; together as many as asked, or one each where there are more
    /// exercises than minutes.
    /// </summary>
    public static ImmutableArray<Exercise> Share(IReadOnlyList<Exercise> exercises, int minutes)
    {
        var left = Math.Max(0, minutes - exercises.Count);
        var sum = exercises.Sum(exercise => WeightOf(exercise.Kind));
        var shares = exercises.Select(exercise => (double)left * WeightOf(exercise.Kind) / sum).ToArray();
        var given = shares.Select(share => (int)share).ToArray();
        // What rounding left goes where most was cut off; of equals to the first.
        foreach (
            var i in Enumerable
                .Range(0, shares.Length)
                .OrderByDescending(i => shares[i] - given[i])
                .Take(left - given.Sum())
        )
            given[i]++;
        return [.. exercises.Select((exercise, i) => exercise with { Minutes = 1 + given[i] })];
    }

    // Assumptions: the phrase itself and playing with others matter most.
    private static int WeightOf(ExerciseKind kind) =>
        kind switch
        {
            ExerciseKind.WarmUp or ExerciseKind.Close => 1,
            ExerciseKind.RightHand => 2,
            ExerciseKind.Phrase or ExerciseKind.Alternate => 4,
            ExerciseKind.WithBand => 5,
            _ => 3,
        };
}
