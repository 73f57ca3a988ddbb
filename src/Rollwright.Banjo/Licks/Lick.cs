using System.Collections.Immutable;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Banjo.Licks;

/// <summary>Half a bar to two bars with a shape of their own, kept by chord and role.</summary>
/// <param name="Name">What the hands do.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Tuning">The tuning it is written in; it fits others with the same long strings.</param>
/// <param name="Chord">What it is played over, from its first step to its last, as the hands know it.</param>
/// <param name="Level">1, first year, to 5, performer.</param>
/// <param name="IsInThrees">For metres whose beats divide in three (6/8, 9/8); otherwise in two.</param>
/// <param name="Steps">One entry a step.</param>
public sealed record Lick(
    string Name,
    LickRole Role,
    Tuning Tuning,
    Chord Chord,
    int Level,
    bool IsInThrees,
    ImmutableArray<LickStep> Steps
)
{
    /// <summary>The chord that stands right behind its last step; null where any may.</summary>
    public Chord? Next { get; init; }

    /// <summary>Steps, rests at the end too.</summary>
    public int Length => Steps.Length;

    /// <summary>Steps without the rests at its end: how far a closing lick may be cut to a short last bar.</summary>
    public int SoundingLength => 1 + Steps.AsSpan().LastIndexOfAnyExcept(LickStep.Rest);

    public Register Register => Registers.Of(HighestFret);

    /// <summary>0 for open strings alone; on string 5 the neck's fret.</summary>
    public int HighestFret => Notes.Select(note => note.Fret).DefaultIfEmpty(0).Max();

    /// <summary>Notes that are slid, hammered or pulled.</summary>
    public int Slurs => Steps.Count(step => step.Slur is not null) + Steps.Count(step => step.HalfSlur is not null);

    /// <summary>Different fingers of the left hand that it needs.</summary>
    public int LeftFingers => Notes.Select(note => note.Left).Where(finger => finger > 0).Distinct().Count();

    /// <summary>What sounds, in order of time.</summary>
    public ImmutableArray<LickSound> Notes => LickSound.Of(Steps);
}
