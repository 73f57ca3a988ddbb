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

    /// <summary>A finger leaves: its string sounds lower, or the hand cannot reach it any more.</summary>
    Lift,

    /// <summary>The finger comes down hard on a string that sounds.</summary>
    HammerOn,

    /// <summary>The finger plucks its string in leaving it.</summary>
    PullOff,

    /// <summary>The finger goes along its string, which sounds on.</summary>
    Slide,

    /// <summary>All leave when the phrase is over.</summary>
    Free,
}

/// <summary>One thing that the left hand does in a bar.</summary>
/// <param name="Kind">What.</param>
/// <param name="At">Whole notes from the start of the bar: when it has to be done.</param>
/// <param name="Places">The fingers; at least one.</param>
/// <param name="Shape">The chord shape that they belong to; null where it is none.</param>
/// <param name="From">Where a single finger moves from; null where it was free.</param>
internal sealed record LeftMotion(
    LeftMotionKind Kind,
    Fraction At,
    ImmutableArray<FingerPlace> Places,
    NamedShape? Shape = null,
    FingerPlace? From = null
)
{
    /// <summary>Whether a finger of it lay elsewhere.</summary>
    public bool IsMove { get; init; }

    /// <summary>Whether several fingers leave and none stays.</summary>
    public bool IsAll { get; init; }

    /// <summary>Fingers of the shape that lay there before.</summary>
    public ImmutableArray<FingerPlace> Beside { get; init; } = [];

    /// <summary>Fingers among those that leave which may stay where one plays on: they are needed there next.</summary>
    public ImmutableArray<FingerPlace> MayStay { get; init; } = [];

    public bool IsSlur => Kind is LeftMotionKind.HammerOn or LeftMotionKind.PullOff or LeftMotionKind.Slide;

    public bool IsLike(LeftMotion other) =>
        Kind == other.Kind
        && At == other.At
        && Shape == other.Shape
        && From == other.From
        && IsMove == other.IsMove
        && IsAll == other.IsAll
        && Places.AsSpan().SequenceEqual(other.Places.AsSpan())
        && Beside.AsSpan().SequenceEqual(other.Beside.AsSpan());

    /// <summary>Whether the hand has the same work in the same order.</summary>
    public static bool AreLike(ImmutableArray<LeftMotion> some, ImmutableArray<LeftMotion> others) =>
        some.Length == others.Length && some.Zip(others).All(pair => pair.First.IsLike(pair.Second));
}

/// <summary>A shape by its name.</summary>
/// <param name="Name">"C shape", "F shape at fret 5".</param>
/// <param name="IsWhole">Whether all its fingers are put down; otherwise some of them.</param>
internal sealed record NamedShape(string Name, bool IsWhole);
