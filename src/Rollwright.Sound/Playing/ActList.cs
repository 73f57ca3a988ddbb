using System.Collections.Immutable;
using Rollwright.Sound.Strings;

namespace Rollwright.Sound.Playing;

/// <summary>Collects the acts of a player's hands, in any order.</summary>
internal sealed class ActList
{
    private readonly List<HandEvent> acts = [];

    public void Stop(double seconds, int onString, double above = 0, double ramp = 0) =>
        Add(new(seconds, HandAct.Stop, onString, above, ramp));

    public void Pluck(double seconds, int onString, Pluck pluck) =>
        Add(new(seconds, HandAct.Pluck, onString, Pluck: pluck));

    public void Touch(double seconds, int onString, double ramp) =>
        Add(new(seconds, HandAct.Touch, onString, Ramp: ramp));

    public void Release(double seconds, int onString) => Add(new(seconds, HandAct.Release, onString));

    /// <summary>In order of time; acts at one time in the order they were given: stop, then pluck.</summary>
    public ImmutableArray<HandEvent> InOrder() => [.. acts.OrderBy(act => act.Seconds)];

    private void Add(HandEvent act) => acts.Add(act with { Seconds = Math.Max(0, act.Seconds) });
}
