using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Strokes;

namespace Rollwright.Arranging.Costs;

/// <summary>
/// What the right hand's doings cost, whatever note they sound: unusual strings for a finger, a string plucked twice
/// running, a roll broken, silence, a pinch.
/// </summary>
public sealed class RightPrice(Weights weights)
{
    private readonly int rollBroken = weights["roll-broken"];
    private readonly int sameString = weights["same-string"];
    private readonly int silent = weights["step-silent"];
    private readonly int trill = weights["trill"];
    private readonly int crossed = weights["crossed"];
    private readonly int pinch = weights["pinch"];
    private readonly int[] onString = BuildStrings(weights);

    /// <param name="before">What the hand remembers.</param>
    /// <param name="happening">What it does.</param>
    /// <param name="breaksRoll">The bar stops being any roll of the table with this event.</param>
    public int Of(RightState before, RightEvent happening, bool breaksRoll)
    {
        if (happening.IsSilent)
            return silent;
        var cost = 0;
        foreach (var (finger, on) in happening.Plucks)
        {
            cost += onString[((int)finger * 6) + on];
            if (on == before.String)
                cost += sameString;
        }
        if ((happening.FingerMask & before.Earlier) != 0 && !happening.IsPinch)
            cost += trill;
        if (Crosses(before, happening))
            cost += crossed;
        if (happening.IsPinch)
            cost += pinch;
        if (breaksRoll)
            cost += rollBroken;
        return cost;
    }

    // The hand lies with the thumb towards the short string and the middle finger towards the first: two plucks running
    // whose strings lie the other way round than their fingers cross it (common practice, no source).
    private static bool Crosses(RightState before, RightEvent happening)
    {
        if (!before.Rings || happening.Plucks is not [var (finger, on)] || on == before.String)
            return false;
        return (1 << (int)finger) > before.Fingers == on > before.String;
    }

    private static int[] BuildStrings(Weights weights)
    {
        var prices = new int[18];
        prices[((int)RightFinger.T * 6) + 1] = weights["thumb-1"];
        prices[((int)RightFinger.T * 6) + 2] = weights["thumb-2"];
        prices[((int)RightFinger.I * 6) + 1] = weights["index-1"];
        prices[((int)RightFinger.I * 6) + 3] = weights["index-3"];
        prices[((int)RightFinger.I * 6) + 4] = weights["index-4"];
        prices[((int)RightFinger.M * 6) + 2] = weights["middle-2"];
        prices[((int)RightFinger.M * 6) + 3] = weights["middle-3"];
        return prices;
    }
}
