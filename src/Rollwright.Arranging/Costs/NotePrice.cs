using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Costs;

/// <summary>What a note costs at a step, by what the tune wishes there: kept, missed, fitting the chord, in the way.</summary>
public sealed class NotePrice(Weights weights, Setting setting)
{
    private readonly int missed = weights["melody-missed"];
    private readonly int octave = weights["melody-octave"];
    private readonly int moved = weights["melody-moved"];
    private readonly int againstChord = weights["against-chord"];
    private readonly int drone = weights["drone"];
    private readonly int droneAgainst = weights["drone-against"];
    private readonly int openFiller = weights["open-filler"];
    private readonly int frettedFiller = weights["fretted-filler"];
    private readonly int masks = weights["masks-melody"];
    private readonly int unnatural = weights["unnatural"];
    private readonly int highFret = weights["high-fret"];
    private readonly int melodyIndex = weights["melody-index"];
    private readonly int melodyMiddle = weights["melody-middle"];

    /// <summary>Price of leaving the tune's note of this step out altogether.</summary>
    public int Missed(StepPlace step) => step.Onset is null ? 0 : Scale(missed, step.Weight);

    /// <summary>Price of leaving out the note that the tune has half a step later.</summary>
    public int HalfMissed(StepPlace step) => step.HalfOnset is null ? 0 : Scale(missed, step.HalfWeight);

    /// <summary>The part of <see cref="Missed"/> that a note of this key still leaves: 0 where it is the tune's own.</summary>
    public int Missing(StepPlace step, int key)
    {
        if (step.Onset is not { } wanted || wanted == key)
            return 0;
        var whole = Missed(step);
        return (wanted - key) % 12 == 0 ? Scale(whole, octave) : whole;
    }

    /// <summary>Price of the note itself: where it lies, and what it is beside the tune.</summary>
    /// <param name="step">The step.</param>
    /// <param name="next">The step after; null at the end.</param>
    /// <param name="onString">1 to 5.</param>
    /// <param name="fret">Counted from the capo.</param>
    public int Of(StepPlace step, StepPlace? next, int onString, int fret)
    {
        var key = setting.Tuning.KeyOf(onString, fret);
        var cost = Place(onString, fret, key);
        return step.Onset == key ? cost : cost + Filler(step, next, onString, fret, key);
    }

    /// <summary>Price of the finger that plays a note of the tune; 0 for the thumb.</summary>
    public int Finger(RightFinger finger) =>
        finger switch
        {
            RightFinger.I => melodyIndex,
            RightFinger.M => melodyMiddle,
            _ => 0,
        };

    private int Place(int onString, int fret, int key)
    {
        if (fret == 0 || onString == 5)
            return 0;
        var cost = highFret * Math.Max(0, fret - 5);
        for (var s = 1; s <= 4; s++)
        {
            var other = key - setting.Tuning.OpenOf(s);
            if (s != onString && other >= 0 && other < fret)
                return cost + unnatural;
        }
        return cost;
    }

    private int Filler(StepPlace step, StepPlace? next, int onString, int fret, int key)
    {
        var fits = step.Chord?.Contains(key) ?? setting.Position.Contains(key % 12);
        if (onString == 5)
            return drone + (step.Chord is { } chord && !chord.Contains(key) ? droneAgainst : 0);
        var cost = fret == 0 ? openFiller : frettedFiller;
        if (!fits)
            cost += againstChord;
        if (step.Sounding is { } tune && key > tune)
            cost += masks;
        var repeats = step.Onset is null && step.Sounding == key;
        var foretells = step.Onset is null && next?.Onset == key;
        if (repeats || foretells)
            cost -= moved;
        return Math.Max(0, cost);
    }

    private static int Scale(int price, int thousandths) => (int)((long)price * thousandths / 1000);
}
