using System.Collections.Immutable;
using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Rolls;
using Rollwright.Music.Metre;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>What the right hand's rules ask of time, read off the places of the steps.</summary>
/// <param name="grid">The tune on its steps.</param>
/// <param name="rolls">Those that the hand knows.</param>
public sealed class BarTimes(StepGrid grid, ImmutableArray<Roll> rolls)
{
    private readonly bool hasShortSteps = grid.Steps.Any(place => place.IsBetween);

    /// <summary>From the step before to the step after is no longer than a step of the metre.</summary>
    public bool Holds(int step) => LengthBefore(step) + grid.Steps[step].Length <= MetreStep(step);

    /// <summary>The step comes so soon after the one before that only the left hand can.</summary>
    public bool IsFast(int step) => !IsFirst(step) && LengthBefore(step) < MetreStep(step) * new Fraction(1, 2);

    /// <summary>As the price of the right hand wants it said.</summary>
    public BarPattern.Step Said(int step) =>
        new(grid.Steps[step].Main, Holds(step), IsFast(step), grid.Steps[step].IsAfterTheEnd);

    public bool IsFirst(int step) => step == grid.FirstOf(grid.Steps[step].Bar);

    /// <summary>The rolls that suit a bar: each half of it (each third of nine) uses all three fingers.</summary>
    public IEnumerable<Roll> RollsFor(int bar)
    {
        var mains = grid.Steps.AsSpan()[grid.Bars[bar]].ToArray().Count(place => !place.IsBetween);
        var group =
            mains % 2 == 0 ? mains / 2
            : mains % 3 == 0 ? mains / 3
            : mains;
        return rolls.Where(roll =>
            group < 3
            || Enumerable
                .Range(0, mains / group)
                .All(i => Enumerable.Range(i * group, group).Select(roll.FingerAt).ToHashSet().Count == 3)
        );
    }

    private Fraction MetreStep(int step) => grid.StepOf(grid.Steps[step].Bar);

    // Before a bar line there may have been a short step, where the tune has such.
    private Fraction LengthBefore(int step) =>
        !IsFirst(step) ? grid.Steps[step - 1].Length
        : hasShortSteps ? MetreStep(step) * new Fraction(1, 2)
        : MetreStep(step);
}
