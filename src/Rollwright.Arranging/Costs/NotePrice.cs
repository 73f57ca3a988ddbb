using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Shapes;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Costs;

/// <summary>What a note costs at a step, by what the tune wishes there: kept, missed, fitting the chord, in the way.</summary>
public sealed class NotePrice(Weights weights, Setting setting)
{
    private readonly int missed = weights[Term.MelodyMissed];
    private readonly int octave = weights[Term.MelodyOctave];
    private readonly int moved = weights[Term.MelodyMoved];
    private readonly int againstChord = weights[Term.AgainstChord];
    private readonly int drone = weights[Term.Drone];
    private readonly int droneAgainst = weights[Term.DroneAgainst];
    private readonly int openFiller = weights[Term.OpenFiller];
    private readonly int frettedFiller = weights[Term.FrettedFiller];
    private readonly int masks = weights[Term.MasksMelody];
    private readonly int unnatural = weights[Term.Unnatural];
    private readonly int highFret = weights[Term.HighFret];
    private readonly int lowFret = weights[Term.LowFret];
    private readonly int pair = weights[Term.Pair];
    private readonly int early = weights[Term.Early];
    private readonly int afterTheEnd = weights[Term.AfterTheEnd];
    private readonly int melodyIndex = weights[Term.MelodyIndex];
    private readonly int melodyMiddle = weights[Term.MelodyMiddle];
    private readonly int beatIndex = weights[Term.BeatIndex];
    private readonly int beatMiddle = weights[Term.BeatMiddle];
    private readonly int oneIndex = weights[Term.OneIndex];
    private readonly int droneRubs = weights[Term.DroneRubs];
    private readonly int late = weights[Term.MelodyLate];

    /// <summary>Up to this fret a note counts as low, from the next one as high (assumption).</summary>
    private const int FirstPosition = 5;

    /// <summary>Whether two notes together have a price of their own at all.</summary>
    public bool HasPairs => pair != 0;

    /// <summary>Price of leaving the tune's note of this step out altogether.</summary>
    public int Missed(StepPlace step) => step.Onset is null ? 0 : Scale(missed, step.Weight);

    /// <summary>The part of <see cref="Missed"/> that a note of this key still leaves: 0 where it is the tune's own.</summary>
    public int Missing(StepPlace step, int key)
    {
        if (step.Onset is not { } wanted || wanted == key)
            return 0;
        var whole = Missed(step);
        return (wanted - key) % 12 == 0 ? Scale(whole, octave) : whole;
    }

    /// <summary>Price of the note itself: where it lies, and what it is beside the tune.</summary>
    /// <param name="tally">Takes the terms.</param>
    /// <param name="step">The step.</param>
    /// <param name="next">The step after; null at the end.</param>
    /// <param name="onString">1 to 5.</param>
    /// <param name="fret">Counted from the capo.</param>
    public void Of<T>(ref T tally, StepPlace step, StepPlace? next, int onString, int fret)
        where T : struct, ITally
    {
        var key = setting.Tuning.KeyOf(onString, fret);
        Place(ref tally, onString, fret, key);
        if (step.Onset != key)
            Filler(ref tally, step, next, onString, fret, key);
    }

    /// <summary>The part of <see cref="Missed"/> that stays where a slur within the step reaches this key.</summary>
    public int MissingLate(StepPlace step, int key) => step.Onset == key ? Scale(Missed(step), late) : Missed(step);

    /// <summary>Price of the finger that plays a note of the tune; nothing for the thumb.</summary>
    public void Finger<T>(ref T tally, StepPlace step, RightFinger finger, int onString)
        where T : struct, ITally
    {
        if (finger == RightFinger.T)
            return;
        var isIndex = finger == RightFinger.I;
        tally.Add(isIndex ? Term.MelodyIndex : Term.MelodyMiddle, isIndex ? melodyIndex : melodyMiddle);
        if (step.Strength < 2)
            return;
        if (isIndex && step.Strength == 3)
            tally.Add(Term.OneIndex, oneIndex);
        if (isIndex)
            tally.Add(Term.BeatIndex, beatIndex);
        else if (onString != 1)
            tally.Add(Term.BeatMiddle, beatMiddle);
    }

    /// <summary>Price of two notes together where one is the tune's and the other goes with it a third or a sixth below.</summary>
    /// <param name="tally">Takes the term.</param>
    /// <param name="step">The step.</param>
    /// <param name="happening">What is plucked.</param>
    /// <param name="shape">What the left hand holds.</param>
    public void Pair<T>(ref T tally, StepPlace step, RightEvent happening, HandShape shape)
        where T : struct, ITally
    {
        if (
            pair == 0
            || step.Strength < 2
            || step.Onset is not { } tune
            || happening.Plucks is not [var (_, one), var (_, two)]
        )
            return;
        var (first, second) = (
            setting.Tuning.KeyOf(one, shape.FretOn(one)),
            setting.Tuning.KeyOf(two, shape.FretOn(two))
        );
        var (low, high) = (Math.Min(first, second), Math.Max(first, second));
        if (
            high == tune
            && one != 5
            && two != 5
            && (high - low) is 3 or 4 or 8 or 9
            && setting.Position.Contains(low % 12)
        )
            tally.Add(Term.Pair, pair);
    }

    private void Place<T>(ref T tally, int onString, int fret, int key)
        where T : struct, ITally
    {
        if (fret > FirstPosition)
            tally.Add(Term.HighFret, highFret * (fret - FirstPosition));
        else if (fret > 0)
            tally.Add(Term.LowFret, lowFret * (FirstPosition - fret));
        if (fret == 0 || onString == 5)
            return;
        for (var s = 1; s <= 4; s++)
        {
            var other = key - setting.Tuning.OpenOf(s);
            if (s == onString || other < 0 || other >= fret)
                continue;
            tally.Add(Term.Unnatural, unnatural);
            return;
        }
    }

    private void Filler<T>(ref T tally, StepPlace step, StepPlace? next, int onString, int fret, int key)
        where T : struct, ITally
    {
        if (step.IsAfterTheEnd)
            tally.Add(Term.AfterTheEnd, afterTheEnd);
        if (step.Onset is null && next is { Strength: >= 2 } && next.Onset == key)
            tally.Add(Term.Early, early);
        if (onString == 5)
        {
            tally.Add(Term.Drone, drone);
            if (step.Chord is { } chord && !chord.Contains(key))
                tally.Add(Term.DroneAgainst, droneAgainst);
            if (step.Sounding is { } beside && Math.Abs(beside - key) % 12 is 1 or 11)
                tally.Add(Term.DroneRubs, droneRubs);
            return;
        }
        var price = fret == 0 ? openFiller : frettedFiller;
        tally.Add(fret == 0 ? Term.OpenFiller : Term.FrettedFiller, price);
        if (!(step.Chord?.Contains(key) ?? setting.Position.Contains(key % 12)))
        {
            price += againstChord;
            tally.Add(Term.AgainstChord, againstChord);
        }
        if (step.Sounding is { } tune && key > tune && (fret > 0 || step.Strength >= 2))
        {
            price += masks;
            tally.Add(Term.MasksMelody, masks);
        }
        var repeats = step.Onset is null && step.Sounding == key;
        var foretells = step.Onset is null && next?.Onset == key;
        // It takes off what the filler costs, and no more.
        if (repeats || foretells)
            tally.Add(Term.MelodyMoved, -Math.Min(moved, Math.Max(0, price)));
    }

    private static int Scale(int price, int thousandths) => (int)((long)price * thousandths / 1000);
}
