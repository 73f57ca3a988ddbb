using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Licks;

/// <summary>One step of a lick: plucks together, or a slur on the string of the step before, or nothing.</summary>
/// <param name="Plucks">Plucked notes, ordered by string from 1; empty for a slur or a rest.</param>
/// <param name="Slur">A slur that fills the step.</param>
/// <param name="HalfSlur">A slur half a step after the one plucked note.</param>
public sealed record LickStep(ImmutableArray<LickNote> Plucks, LickSlur? Slur, LickSlur? HalfSlur)
{
    public static LickStep Rest { get; } = new([], null, null);

    public bool IsRest => Plucks.IsEmpty && Slur is null;

    public bool Equals(LickStep? other) =>
        other is not null
        && Slur == other.Slur
        && HalfSlur == other.HalfSlur
        && Plucks.AsSpan().SequenceEqual(other.Plucks.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Plucks.Length, Slur, HalfSlur);
}

/// <param name="String">1 to 5.</param>
/// <param name="Fret">Counted from the capo.</param>
/// <param name="Right">The plucking finger.</param>
/// <param name="Left">The holding finger, 1 to 4; 0 for an open string.</param>
public readonly record struct LickNote(int String, int Fret, RightFinger Right, int Left);

/// <param name="Kind">Slide, hammer-on, pull-off.</param>
/// <param name="String">1 to 5; string 5 is refused by the hands' rules.</param>
/// <param name="Fret">Where it goes.</param>
/// <param name="Left">The finger that holds it; 0 for an open string. A slide keeps the finger it starts with.</param>
public sealed record LickSlur(SlurKind Kind, int String, int Fret, int Left);
