using System.Collections.Immutable;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Tunings;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Fingering;

/// <summary>Nothing sounds at the step but notes that are given.</summary>
/// <param name="Step">The step.</param>
/// <param name="Keys">Keys as the hands know them; empty for silence.</param>
/// <param name="Tuning">The tuning.</param>
public sealed record KeysLock(int Step, ImmutableArray<int> Keys, Tuning Tuning) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done)
    {
        if (done.HalfSlur is not null)
            return false;
        if (done.SlurString is var s and not 0)
            return Keys.Length == 1 && Keys[0] == Tuning.KeyOf(s, done.Shape.FretOn(s));
        var left = Keys;
        foreach (var (_, on) in done.Event.Plucks)
        {
            var key = Tuning.KeyOf(on, done.Shape.FretOn(on));
            if (!left.Contains(key))
                return false;
            left = left.Remove(key);
        }
        return true;
    }

    public override string Words => "the notes that are given";
}
