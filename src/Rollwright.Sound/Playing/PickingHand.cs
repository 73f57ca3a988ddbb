using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Playing;

/// <summary>How hard and where the fingers pluck.</summary>
internal sealed class PickingHand(Accents accents, InstrumentVoice banjo, int seed)
{
    /// <summary>A hand is never quite even: 4 % of the force either way (assumption).</summary>
    internal const double Unevenness = 0.04;

    /// <summary>A slur to a note that is not the tune, beside one that is (assumption).</summary>
    internal const double SoftSlur = 0.7;

    private readonly Touch thumb = banjo.Touches["thumb"];
    private readonly Touch index = banjo.Touches["index"];
    private readonly Touch middle = banjo.Touches["middle"];
    private readonly Touch hammer = banjo.Touches["hammer"];
    private readonly Touch pull = banjo.Touches["pull"];

    // Seeded: the same seed is uneven in the same way.
    private readonly Random chance = new(seed);

    public Pluck Of(Stroke stroke)
    {
        var level =
            stroke.IsMelody ? accents.Melody
            : stroke.String == Neck.ShortString ? accents.Drone
            : accents.Fill;
        var strength = Math.Pow(10, level / 20) * (1 + (Unevenness * Chance()));
        return Finger(stroke.Right).With(strength, Chance());
    }

    /// <summary>The knock of a finger that comes down, or the small pluck of one that leaves; far softer than a pick.</summary>
    public Pluck OfSlur(SlurKind kind, bool isMelody) =>
        (kind == SlurKind.HammerOn ? hammer : pull).With(isMelody ? 1 : SoftSlur);

    private Touch Finger(RightFinger? right) =>
        right switch
        {
            RightFinger.T => thumb,
            RightFinger.I => index,
            _ => middle,
        };

    private double Chance() => (chance.NextDouble() * 2) - 1;
}
