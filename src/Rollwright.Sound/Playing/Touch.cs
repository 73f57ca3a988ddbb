using Rollwright.Banjo.Strokes;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Playing;

/// <summary>
/// How hard and where the fingers pluck. All values are assumptions within common practice: the thumb wears a plastic
/// pick and plays a little farther from the bridge, the fingers wear metal; the tune stands out over fill and drone.
/// </summary>
internal sealed class Touch(int seed)
{
    // Seeded: a hand is never quite even, and the same seed is uneven in the same way.
    private readonly Random unevenness = new(seed);

    public Pluck Of(Stroke stroke)
    {
        var force =
            stroke.IsMelody ? 1f
            : stroke.String == Banjo.Tunings.Neck.ShortString ? 0.55f
            : 0.62f;
        force *= 1 + (0.04f * ((float)unevenness.NextDouble() - 0.5f) * 2);
        var wander = 4 * (unevenness.NextDouble() - 0.5);
        return stroke.Right switch
        {
            RightFinger.T => new(force, 92 + wander, 8_000, 0.02),
            RightFinger.I => new(force, 80 + wander, 12_000, 0.03),
            _ => new(force, 76 + wander, 12_000, 0.03),
        };
    }

    /// <summary>The knock of a finger that comes down, or the small pluck of one that leaves; far softer than a pick.</summary>
    public static Pluck OfSlur(SlurKind kind, bool isMelody)
    {
        var strength = isMelody ? 1f : 0.7f;
        return kind == SlurKind.HammerOn ? new(0.12f * strength, 300, 2_500, 0) : new(0.25f * strength, 300, 3_500, 0);
    }
}
