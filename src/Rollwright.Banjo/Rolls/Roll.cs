using System.Collections.Immutable;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Banjo.Rolls;

/// <summary>An order of right-hand fingers, one a step; strings are chosen freely under it.</summary>
/// <param name="Name">As players say it.</param>
/// <param name="Fingers">One a step of a bar; looped where the bar is longer.</param>
/// <param name="Strings">The usual strings, for showing the roll alone.</param>
/// <param name="Level">The lowest level of playing that uses it, 1 to 5.</param>
public sealed record Roll(string Name, ImmutableArray<RightFinger> Fingers, ImmutableArray<int> Strings, int Level = 1)
{
    public RightFinger FingerAt(int step) => Fingers[step % Fingers.Length];
}
