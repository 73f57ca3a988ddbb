using System.Collections.Immutable;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Banjo.Licks;

/// <summary>A bar or two with a shape of its own, kept by chord and role.</summary>
/// <param name="Name">What the hands do.</param>
/// <param name="Role">What it is for.</param>
/// <param name="Tuning">The tuning it is written in; it fits others with the same strings.</param>
/// <param name="Chord">What it is played over, as the hands know it.</param>
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
);
