using System.Collections.Immutable;

namespace Rollwright.Banjo.Licks;

/// <summary>One note of a lick as it is heard.</summary>
/// <param name="At">Half steps of the lick from its start, so that a slur within a step has a place.</param>
/// <param name="String">1 to 5.</param>
/// <param name="Fret">Counted from the capo.</param>
/// <param name="Left">The holding finger; 0 for an open string.</param>
/// <param name="IsLeft">A slur leaves it within its step or at the next one.</param>
public readonly record struct LickSound(int At, int String, int Fret, int Left, bool IsLeft)
{
    public static ImmutableArray<LickSound> Of(ImmutableArray<LickStep> steps)
    {
        var sounds = ImmutableArray.CreateBuilder<LickSound>();
        for (var i = 0; i < steps.Length; i++)
        {
            var next = i + 1 < steps.Length ? steps[i + 1].Slur : null;
            foreach (var note in steps[i].Plucks)
            {
                var isLeft = steps[i].HalfSlur is not null || next?.String == note.String;
                sounds.Add(new(2 * i, note.String, note.Fret, note.Left, isLeft));
            }
            if (steps[i].Slur is { } slur)
                sounds.Add(new(2 * i, slur.String, slur.Fret, slur.Left, false));
            if (steps[i].HalfSlur is { } half)
                sounds.Add(new((2 * i) + 1, half.String, half.Fret, half.Left, false));
        }
        return sounds.ToImmutable();
    }
}
