using System.Numerics;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Costs;

/// <summary>
/// What the right hand's doings cost, whatever note they sound: unusual strings for a finger, a string plucked twice
/// running, a roll broken, silence, a pinch.
/// </summary>
public sealed class RightPrice(Weights weights)
{
    private readonly Weights weights = weights;
    private readonly int sameString = weights[Term.SameString];
    private readonly int trill = weights[Term.Trill];

    /// <summary>Whether the way of playing asks a bar to be a roll at all.</summary>
    public bool AsksRoll { get; } = weights[Term.RollBroken] > 0;

    /// <summary>Whether a finger may pluck at two steps running, where the steps are slow enough for it.</summary>
    public bool MayPluckTwice { get; } = weights[Term.FingerTwice] > 0;

    /// <param name="tally">Takes the terms.</param>
    /// <param name="before">What the hand remembers.</param>
    /// <param name="happening">What it does.</param>
    /// <param name="breaksRoll">The bar stops being any roll of the table with this event.</param>
    /// <param name="step">Where in the bar.</param>
    public void Of<T>(ref T tally, RightState before, RightEvent happening, bool breaksRoll, BarPattern.Step step)
        where T : struct, ITally
    {
        if (happening.IsSilent)
        {
            if (!step.IsBetween && !step.IsAfterTheEnd)
                tally.Add(Term.StepSilent, weights[Term.StepSilent]);
            return;
        }
        if (step.IsBetween)
            tally.Add(Term.BetweenPluck, weights[Term.BetweenPluck]);
        foreach (var (finger, on) in happening.Plucks)
        {
            if (Habit(finger, on) is { } term)
                tally.Add(term, weights[term]);
            if (on == before.String)
                tally.Add(Term.SameString, sameString);
        }
        if ((happening.FingerMask & before.Last) != 0)
            tally.Add(Term.FingerTwice, weights[Term.FingerTwice]);
        if ((happening.FingerMask & before.Earlier) != 0 && !happening.IsPinch)
        {
            // After a slur the finger that plucked before it plucks again: the hand has stopped rolling. The thumb may.
            if (before.Last == 0)
                tally.Add(
                    Term.FingerAgain,
                    happening.Plucks[0].Finger == RightFinger.T ? 0 : weights[Term.FingerAgain]
                );
            else
                tally.Add(Term.Trill, trill);
        }
        if (Crosses(before, happening))
            tally.Add(Term.Crossed, weights[Term.Crossed]);
        if (happening.IsPinch)
            tally.Add(Term.Pinch, weights[Term.Pinch]);
        if (breaksRoll)
            tally.Add(Term.RollBroken, weights[Term.RollBroken]);
    }

    /// <summary>Price of a slur for the right hand, which plays nothing meanwhile.</summary>
    /// <param name="tally">Takes the term.</param>
    /// <param name="breaksRoll">The bar stops being any roll of the table with it.</param>
    public void OfSlur<T>(ref T tally, bool breaksRoll)
        where T : struct, ITally
    {
        if (breaksRoll)
            tally.Add(Term.RollBroken, weights[Term.RollBroken]);
    }

    /// <summary>Price of a bar in this way of playing, whatever happens in it.</summary>
    public void OfBar<T>(ref T tally)
        where T : struct, ITally => tally.Add(Term.OutOfRoll, weights[Term.OutOfRoll]);

    // The hand lies with the thumb towards the short string and the middle finger towards the first: two plucks running
    // whose strings lie the other way round than their fingers cross it (common practice, no source).
    private static bool Crosses(RightState before, RightEvent happening)
    {
        if (
            !before.Rings
            || happening.Plucks is not [var (finger, on)]
            || on == before.String
            || !BitOperations.IsPow2(before.Last)
        )
            return false;
        return (1 << (int)finger) > before.Last == on > before.String;
    }

    /// <summary>The price of a string that is not a finger's own; null where it is (common practice, no source).</summary>
    private static Term? Habit(RightFinger finger, int onString) =>
        (finger, onString) switch
        {
            (RightFinger.T, 1) => Term.Thumb1,
            (RightFinger.T, 2) => Term.Thumb2,
            (RightFinger.I, 1) => Term.Index1,
            (RightFinger.I, 3) => Term.Index3,
            (RightFinger.I, 4) => Term.Index4,
            (RightFinger.M, 2) => Term.Middle2,
            (RightFinger.M, 3) => Term.Middle3,
            _ => null,
        };
}
