using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Licks;

/// <summary>One step of a lick: plucks together, or a slur on the string of the step before, or nothing.</summary>
/// <param name="Plucks">Plucked notes; empty for a slur or a rest.</param>
/// <param name="Slur">A slur that fills the step.</param>
/// <param name="HalfSlur">A slur half a step after the one plucked note.</param>
public sealed record LickStep(ImmutableArray<LickNote> Plucks, LickSlur? Slur, LickSlur? HalfSlur)
{
    public bool IsRest => Plucks.IsEmpty && Slur is null;
}

/// <param name="String">1 to 5.</param>
/// <param name="Fret">Counted from the capo.</param>
/// <param name="Right">The plucking finger.</param>
/// <param name="Left">The holding finger, 1 to 4; 0 for an open string.</param>
public readonly record struct LickNote(int String, int Fret, RightFinger Right, int Left);

/// <param name="Kind">Slide, hammer-on, pull-off.</param>
/// <param name="String">1 to 4.</param>
/// <param name="Fret">Where it goes.</param>
/// <param name="Left">The finger that holds it; 0 for an open string.</param>
public sealed record LickSlur(SlurKind Kind, int String, int Fret, int Left);
