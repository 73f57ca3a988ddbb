using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Arranging.Tests.Exact;

/// <summary>What the right hand remembers before a step, by the rules: nothing is left out, nothing merged.</summary>
/// <param name="Last">One bit for each finger that played last.</param>
/// <param name="Older">The same for the fingers before those, while the steps are short.</param>
/// <param name="String">The string that was plucked last, alone; 0 for none.</param>
/// <param name="Rings">It is a long string that still rings, so that the left hand may slur it.</param>
/// <param name="Earlier">Outside a roll the finger that played before the last; after a slur the one before it.</param>
public readonly record struct HandMemory(int Last, int Older, int String, bool Rings, int Earlier)
{
    public bool MayPlay(RightEvent happening) => (happening.FingerMask & (Last | Older)) == 0;

    /// <summary>As the price of the right hand wants it said.</summary>
    public RightState Said(int manner) => new(manner, 0, Last, Older, String, Rings, Earlier);

    /// <param name="happening">What the hand does at the step.</param>
    /// <param name="isOpen">The bar can still be a roll after it.</param>
    /// <param name="isBetween">The step lies between those of the metre.</param>
    /// <param name="holds">From the step before to the step after is no longer than a step of the metre.</param>
    public HandMemory After(RightEvent happening, bool isOpen, bool isBetween, bool holds)
    {
        if (happening.IsSilent)
            return Rest(isBetween, holds) with { Earlier = isBetween && holds ? Earlier : 0 };
        var tired = holds ? Last : 0;
        return happening.IsPinch ? new(happening.FingerMask, tired, 0, false, 0) : Alone(happening, tired, isOpen);
    }

    /// <summary>
    /// A slur between steps of the metre leaves its string ringing; one in a step of its own leaves the fingers fresh, but
    /// not forgotten.
    /// </summary>
    public HandMemory AfterSlur(bool isBetween, bool holds) =>
        Rest(isBetween, holds) with
        {
            Rings = isBetween,
            Earlier = isBetween ? 0 : Last,
        };

    /// <summary>Over the bar line the hand remembers who is tired and what rings, the short string too; a new roll begins.</summary>
    public HandMemory AtBarLine() => new(Last | Older, 0, Rings || String == Neck.ShortString ? String : 0, Rings, 0);

    private HandMemory Alone(RightEvent happening, int tired, bool isOpen)
    {
        var on = happening.Plucks[0].String;
        return new(happening.FingerMask, tired, on, on != Neck.ShortString, isOpen || String == 0 ? 0 : Last);
    }

    // While steps are short a finger stays tired through a rest; the string is remembered, but rings no more.
    private HandMemory Rest(bool isBetween, bool holds) => new(holds ? Last : 0, 0, isBetween ? String : 0, false, 0);
}
