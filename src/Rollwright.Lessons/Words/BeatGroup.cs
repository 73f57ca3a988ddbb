using System.Collections.Immutable;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Words;

/// <summary>What both hands do in one stretch of a bar that is said in one breath: a half bar, or what a beam covers.</summary>
/// <param name="Slots">What sounds, in order of time; at least one.</param>
/// <param name="Motions">What the left hand does for it, in order of time.</param>
internal sealed record BeatGroup(ImmutableArray<Slot> Slots, ImmutableArray<LeftMotion> Motions)
{
    /// <summary>The groups of a bar in which something sounds.</summary>
    /// <param name="slots">What sounds in the bar.</param>
    /// <param name="motions">What the left hand does in it.</param>
    /// <param name="length">Length of a group, in whole notes: <see cref="TimeSignature.BeamGroup"/>.</param>
    /// <param name="missing">Whole notes of the full bar that lie before a bar short in front.</param>
    public static ImmutableArray<BeatGroup> Of(
        ImmutableArray<Slot> slots,
        ImmutableArray<LeftMotion> motions,
        Fraction length,
        Fraction missing
    )
    {
        var groups = slots
            .GroupBy(slot => ((slot.At + missing) / length).Floor())
            .Select(group => group.ToImmutableArray())
            .ToList();
        var work = motions.ToLookup(motion => Math.Max(0, groups.FindLastIndex(group => group[0].At <= motion.At)));
        return [.. groups.Select((group, i) => new BeatGroup(group, [.. work[i]]))];
    }
}
