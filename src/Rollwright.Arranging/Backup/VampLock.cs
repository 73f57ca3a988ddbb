using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Backup;

/// <summary>A pinch of a closed chord: two or three strings, every one of them fretted, so that the left hand can damp it.</summary>
public sealed record VampLock(int Step) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done) =>
        done.SlurString == 0
        && done.Event.IsPinch
        && done.Event.Plucks.All(pluck => pluck.String != Neck.ShortString && done.Shape.FretOn(pluck.String) > 0);

    public override string Words => "a pinch of a closed chord";
}

/// <summary>A bass note alone, with the thumb.</summary>
public sealed record BassLock(int Step, int Key, Tuning Tuning) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done) =>
        done.SlurString == 0
        && done.Event.Plucks is [(RightFinger.T, var on)]
        && Tuning.KeyOf(on, done.Shape.FretOn(on)) == Key;

    public override string Words => "a bass note with T";
}
