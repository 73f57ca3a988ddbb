using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>Finds the bar told before that a bar repeats, wholly or but for a place or two.</summary>
internal sealed class BarLikeness(Break played, Counting counting)
{
    // More differences than this are harder to keep in mind than the bar itself (assumption).
    private const int MostDifferences = 2;
    private const int LeastAlike = 4;

    private readonly List<(int Bar, ImmutableArray<Slot> Slots, ImmutableArray<LeftMotion> Motions)> told = [];

    /// <param name="Bar">The bar that it is like.</param>
    /// <param name="Short">", but on 2-and index 2"; empty where they are the same.</param>
    /// <param name="Long">The same with every string, fret and finger.</param>
    /// <param name="HasSameLeft">Whether the left hand does the same too.</param>
    internal sealed record Like(int Bar, string Short, string Long, bool HasSameLeft);

    public void Remember(int bar, ImmutableArray<Slot> slots, ImmutableArray<LeftMotion> motions) =>
        told.Add((bar, slots, motions));

    public Like? Of(int bar, ImmutableArray<Slot> slots, ImmutableArray<LeftMotion> motions)
    {
        (int Bar, ImmutableArray<Slot> Slots, ImmutableArray<LeftMotion> Motions)? best = null;
        ImmutableArray<Fraction> least = default;
        foreach (var other in told)
        {
            if (!IsComparable(other.Bar, bar) || slots.IsEmpty)
                continue;
            var differences = Differences(slots, other.Slots);
            if (best is null || differences.Length < least.Length)
                (best, least) = (other, differences);
        }
        if (
            best is not { } like
            || least.Length > MostDifferences
            || (!least.IsEmpty && slots.Length - least.Length < LeastAlike)
        )
            return null;
        return new(
            like.Bar,
            But(SlotWords.Short),
            But(SlotWords.Long),
            LeftMotion.AreLike(WithoutSlurs(motions), WithoutSlurs(like.Motions))
        );

        string But(Func<Slot, string> say) =>
            least.IsEmpty
                ? ""
                : $", but {string.Join("; ", least.Select(at => $"on {counting.Of(bar, at)}: {(slots.FirstOrDefault(slot => slot.At == at) is { } slot ? say(slot) : "leave out the note")}"))}";
    }

    private static ImmutableArray<LeftMotion> WithoutSlurs(ImmutableArray<LeftMotion> motions) =>
        [.. motions.Where(motion => !motion.IsSlur)];

    // Bars cut short, or of another metre, are counted otherwise; a bar whose name is another's too cannot be pointed at. A
    // slur that starts from another fret sounds otherwise where its source lies in the bar before: it is the same to play.
    private bool IsComparable(int other, int bar) =>
        other != bar
        && counting.IsOnly(other)
        && counting.MissingBefore(other) == counting.MissingBefore(bar)
        && played.Bars[other].Time == played.Bars[bar].Time
        && played.Bars[other].Length == played.Bars[bar].Length;

    private static ImmutableArray<Fraction> Differences(ImmutableArray<Slot> one, ImmutableArray<Slot> other) =>
        [
            .. one.Concat(other)
                .Select(slot => slot.At)
                .Distinct()
                .Order()
                .Where(at =>
                    !Same(one.FirstOrDefault(slot => slot.At == at), other.FirstOrDefault(slot => slot.At == at))
                ),
        ];

    private static bool Same(Slot? one, Slot? other) => one is not null && other is not null && one.IsLike(other);
}
