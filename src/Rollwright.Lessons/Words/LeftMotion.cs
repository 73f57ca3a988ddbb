using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>A finger of the left hand on the neck.</summary>
/// <param name="String">1 to 5.</param>
/// <param name="Fret">1 and more.</param>
/// <param name="Finger">0 thumb to 4 little; null where it is not known.</param>
internal readonly record struct FingerPlace(int String, int Fret, int? Finger);

/// <summary>What the left hand does.</summary>
internal enum LeftMotionKind
{
    /// <summary>Fingers come down, alone or as a shape.</summary>
    Down,

    /// <summary>A finger comes down behind another, for a pull-off to it.</summary>
    Behind,

    /// <summary>A finger that was down before the bar is needed on.</summary>
    Keep,

    /// <summary>A finger leaves, so that the open string sounds.</summary>
    Lift,
}

/// <summary>One thing that the left hand does in a bar; what slurs do is said with the right hand.</summary>
/// <param name="Kind">What.</param>
/// <param name="At">Whole notes from the start of the bar: when it has to be done.</param>
/// <param name="Places">The fingers; at least one.</param>
/// <param name="Shape">The chord shape that they belong to; null where it is none.</param>
/// <param name="IsAgain">A lift of a finger that came down in the same bar.</param>
internal sealed record LeftMotion(
    LeftMotionKind Kind,
    Fraction At,
    ImmutableArray<FingerPlace> Places,
    NamedShape? Shape = null,
    bool IsAgain = false
)
{
    public bool IsLike(LeftMotion other) =>
        Kind == other.Kind
        && At == other.At
        && Shape == other.Shape
        && Places.AsSpan().SequenceEqual(other.Places.AsSpan());
}

/// <summary>A shape by its name.</summary>
/// <param name="Name">"C shape", "F shape at fret 5".</param>
/// <param name="IsWhole">Whether all its fingers are put down; otherwise some of them.</param>
internal sealed record NamedShape(string Name, bool IsWhole);
