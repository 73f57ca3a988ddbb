using System.Collections.Immutable;

namespace Rollwright.Lessons.Plan;

/// <summary>Why a phrase stands where it does in a lesson.</summary>
public enum TeachingReason
{
    /// <summary>It is heard most often: whoever can play it has most of the tune.</summary>
    Defining,

    /// <summary>It carries the tune.</summary>
    Tune,

    /// <summary>Licks may take its place.</summary>
    Free,

    /// <summary>It ends a part.</summary>
    Ending,
}

/// <summary>A phrase to be taught.</summary>
/// <param name="Phrase">Its number.</param>
/// <param name="Part">Name of its part.</param>
/// <param name="Letter">Its letter in the form map: phrases with the same strokes share one.</param>
/// <param name="Reason">Why it comes here.</param>
/// <param name="Also">Numbers of the phrases that are played the same and need no teaching.</param>
/// <param name="Times">How often it is heard when the break is played once, repeats taken.</param>
public sealed record TeachingStep(
    int Phrase,
    string Part,
    string Letter,
    TeachingReason Reason,
    ImmutableArray<int> Also,
    int Times
)
{
    /// <summary>The reason in a sentence; empty where it goes without saying.</summary>
    public string Why =>
        Reason switch
        {
            TeachingReason.Defining when Times > 1 =>
                $"Learn this first: you play it {(Times == 2 ? "twice" : $"{Times} times")}.",
            TeachingReason.Defining => "Start with it: it opens the tune.",
            TeachingReason.Tune => "",
            TeachingReason.Free =>
                "The tune leaves you free here: play it as it stands first, then put other licks in.",
            _ => "It ends a part.",
        };
}
