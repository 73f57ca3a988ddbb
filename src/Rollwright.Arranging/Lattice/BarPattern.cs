using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;
using Rollwright.Music.Metre;

namespace Rollwright.Arranging.Lattice;

/// <summary>How the steps of a bar lie in time: all that the right hand's automaton knows of it. Equal patterns share one.</summary>
/// <param name="Steps">One entry a step.</param>
/// <param name="IsFull">The bar is as long as its metre: it is asked to be a roll.</param>
/// <param name="OpensPhrase">The way of playing may change here.</param>
/// <param name="HasShortSteps">Some bar of the tune has steps between: fingers are remembered over the bar line.</param>
public sealed record BarPattern(
    ImmutableArray<BarPattern.Step> Steps,
    bool IsFull,
    bool OpensPhrase,
    bool HasShortSteps
)
{
    /// <param name="Main">The metre's step; -1 for a step between.</param>
    /// <param name="Holds">
    /// From the step before to the step after is no longer than a step of the metre: who played before may still not play.
    /// </param>
    /// <param name="IsAfterTheEnd">The tune has ended: silence is what belongs there.</param>
    /// <param name="IsFast">Comes so soon after the step before that only the left hand can.</param>
    public readonly record struct Step(int Main, bool Holds, bool IsFast, bool IsAfterTheEnd = false)
    {
        public bool IsBetween => Main < 0;
    }

    public static BarPattern Of(StepGrid grid, int bar, Fraction metreStep, bool hasShortSteps)
    {
        var places = grid.Steps.AsSpan()[grid.Bars[bar]];
        var steps = ImmutableArray.CreateBuilder<Step>(places.Length);
        var half = metreStep * new Fraction(1, 2);
        for (var i = 0; i < places.Length; i++)
        {
            // Before the bar there may be a short step; what follows the bar begins on time.
            var before =
                i > 0 ? places[i - 1].Length
                : hasShortSteps ? half
                : metreStep;
            steps.Add(
                new(
                    places[i].Main,
                    before + places[i].Length <= metreStep,
                    i > 0 && before < half,
                    places[i].IsAfterTheEnd
                )
            );
        }
        return new(steps.MoveToImmutable(), grid.IsFull(bar), grid.OpensPhrase(bar), hasShortSteps);
    }

    public bool Equals(BarPattern? other) =>
        other is not null
        && IsFull == other.IsFull
        && OpensPhrase == other.OpensPhrase
        && HasShortSteps == other.HasShortSteps
        && Steps.AsSpan().SequenceEqual(other.Steps.AsSpan());

    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach (var step in Steps)
            hash.Add(step);
        hash.Add((IsFull, OpensPhrase, HasShortSteps));
        return hash.ToHashCode();
    }
}
