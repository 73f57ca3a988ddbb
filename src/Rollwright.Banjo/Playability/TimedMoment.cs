using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Playability;

/// <summary>A moment of the break with the time at which it sounds.</summary>
/// <param name="Moment">As written.</param>
/// <param name="Sounds">Whole notes from the start, swung where the break swings.</param>
internal readonly record struct TimedMoment(Moment Moment, Fraction Sounds)
{
    public static ImmutableArray<TimedMoment> Of(Break played)
    {
        var swung = SwungTime.Of(played);
        return [.. Moment.Of(played).Select(moment => new TimedMoment(moment, swung.At(moment.At)))];
    }

    /// <summary>The time since another moment in words: "one step", "half a step", "2.5 steps".</summary>
    public string Since(TimedMoment before)
    {
        var steps = ((Moment.At - before.Moment.At) / Moment.Step).ToDouble();
        return steps switch
        {
            0.5 => "half a step",
            1 => "one step",
            2 => "two steps",
            3 => "three steps",
            _ => $"{steps:0.##} step{(steps <= 1 ? "" : "s")}",
        };
    }
}
