using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;
using Lock = Rollwright.Arranging.Locks.Lock;

namespace Rollwright.Arranging.Backup;

/// <summary>A pinch of a closed chord: every string of it fretted, so that the left hand can damp it.</summary>
/// <param name="Step">The step.</param>
/// <param name="Chord">The chord of the moment, as the hands know it.</param>
/// <param name="Tuning">The tuning.</param>
/// <param name="Strings">How many strings at least: three with the chord's third among them, or two.</param>
public sealed record VampLock(int Step, Chord Chord, Tuning Tuning, int Strings) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done)
    {
        var plucks = done.Event.Plucks;
        if (done.SlurString != 0 || plucks.Length < Strings)
            return false;
        var hasThird = false;
        foreach (var (_, on) in plucks)
        {
            var fret = done.Shape.FretOn(on);
            var key = Tuning.KeyOf(on, fret);
            if (on == Neck.ShortString || fret == 0 || !Chord.Contains(key))
                return false;
            hasThird |= Chord.PitchClasses.Length < 3 || key % 12 == Chord.PitchClasses[1];
        }
        return hasThird;
    }

    public override string Words => "a pinch of a closed chord";
}

/// <summary>A bass note alone, with the thumb.</summary>
public sealed record BassLock(int Step, int Key, Tuning Tuning) : Lock(Step, Step)
{
    public override bool Allows(int step, PathStep done) =>
        done.SlurString == 0
        && done.Event.Plucks is [(RightFinger.T, var on)]
        && on >= 3
        && Tuning.KeyOf(on, done.Shape.FretOn(on)) == Key;

    public override string Words => "a bass note with T";
}
