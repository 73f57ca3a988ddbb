using System.Collections.Immutable;

namespace Rollwright.Lessons.Practice;

/// <summary>What is played in an exercise.</summary>
public enum ExerciseKind
{
    /// <summary>A phrase that is known, slowly, to get warm.</summary>
    WarmUp,

    /// <summary>The right hand alone on open strings.</summary>
    RightHand,

    /// <summary>One bar.</summary>
    Bar,

    /// <summary>That bar with its neighbour.</summary>
    WithNeighbour,

    /// <summary>The phrase.</summary>
    Phrase,

    /// <summary>A phrase that comes back after days.</summary>
    Return,

    /// <summary>Two phrases in turn.</summary>
    Alternate,

    /// <summary>A part with the band, which goes on alone for two bars in every four.</summary>
    WithBand,

    /// <summary>What was new today once more.</summary>
    Close,
}

public static class ExerciseKinds
{
    /// <summary>Whether whole phrases are played with both hands, so that their tempo is one that is kept.</summary>
    public static bool IsOfPhrases(this ExerciseKind kind) =>
        kind is not (ExerciseKind.RightHand or ExerciseKind.Bar or ExerciseKind.WithNeighbour);
}

/// <summary>One thing to do in a session.</summary>
/// <param name="Kind">What is played.</param>
/// <param name="Phrases">Numbers of the phrases that it is for.</param>
/// <param name="Loops">What is played again and again; two where they take turns.</param>
/// <param name="Ladder">Its tempos.</param>
/// <param name="Start">Units a minute to begin with.</param>
/// <param name="Minutes">How long, at least 1.</param>
/// <param name="Words">What to do, in one or two sentences.</param>
/// <param name="Why">Why, in one; empty where it goes without saying.</param>
public sealed record Exercise(
    ExerciseKind Kind,
    ImmutableArray<int> Phrases,
    ImmutableArray<Loop> Loops,
    TempoLadder Ladder,
    double Start,
    int Minutes,
    string Words,
    string Why
);
