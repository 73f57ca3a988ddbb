using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>What happens at one time of a bar.</summary>
/// <param name="At">Whole notes from the start of the bar.</param>
/// <param name="Plucks">Struck by the right hand, together; ordered by string from 5, as a pinch is said.</param>
/// <param name="Slurs">Made by the left hand at the same time.</param>
/// <param name="AtOnce">Slurs on the plucked string half a step later, before anything else happens.</param>
internal sealed record Slot(
    Fraction At,
    ImmutableArray<Stroke> Plucks,
    ImmutableArray<Stroke> Slurs,
    ImmutableArray<Stroke> AtOnce
)
{
    /// <summary>Which finger makes each slur; empty where that is not asked.</summary>
    public ImmutableArray<LeftMotion> SlurMotions { get; init; } = [];

    /// <param name="bar">The bar.</param>
    /// <param name="motions">What the left hand does in it.</param>
    public static ImmutableArray<Slot> Of(BreakBar bar, ImmutableArray<LeftMotion> motions) =>
        [
            .. Of(bar)
                .Select(slot =>
                    slot with
                    {
                        SlurMotions =
                        [
                            .. motions.Where(motion =>
                                motion.IsSlur
                                && slot.Strokes.Any(stroke => stroke.Slur is not null && IsOf(motion, stroke))
                            ),
                        ],
                    }
                ),
        ];

    public static ImmutableArray<Slot> Of(BreakBar bar)
    {
        var half = bar.Time.Step / new Fraction(2);
        var slots = ImmutableArray.CreateBuilder<Slot>();
        foreach (var moment in bar.Strokes.GroupBy(stroke => stroke.At))
        {
            ImmutableArray<Stroke> plucks =
            [
                .. moment.Where(stroke => stroke.Slur is null).OrderByDescending(stroke => stroke.String),
            ];
            ImmutableArray<Stroke> slurs = [.. moment.Where(stroke => stroke.Slur is not null)];
            if (
                plucks.IsEmpty
                && slots.Count > 0
                && slots[^1] is var before
                && before.AtOnce.IsEmpty
                && moment.Key == before.At + half
                && slurs.All(slur => before.Plucks.Any(pluck => pluck.String == slur.String))
            )
                slots[^1] = before with { AtOnce = slurs };
            else
                slots.Add(new(moment.Key, plucks, slurs, []));
        }
        return slots.ToImmutable();
    }

    public IEnumerable<Stroke> Strokes => [.. Plucks, .. Slurs, .. AtOnce];

    /// <summary>What the left hand does for a slur; null where it is not known.</summary>
    public LeftMotion? MotionOf(Stroke slur) => SlurMotions.FirstOrDefault(motion => IsOf(motion, slur));

    /// <summary>The same strokes at the same time by the same fingers, whatever is the tune's and however long they are written.</summary>
    public bool IsLike(Slot other) =>
        At == other.At
        && Strokes.Select(Hands).SequenceEqual(other.Strokes.Select(Hands))
        && LeftMotion.AreLike(SlurMotions, other.SlurMotions);

    private static bool IsOf(LeftMotion motion, Stroke slur) =>
        motion.At == slur.At && motion.Places[0].String == slur.String;

    private static (Fraction, int, int, RightFinger?, SlurKind?, int?) Hands(Stroke stroke) =>
        (stroke.At, stroke.String, stroke.Fret, stroke.Right, stroke.Slur, stroke.Left);
}
