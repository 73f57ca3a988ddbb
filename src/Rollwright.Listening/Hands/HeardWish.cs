using System.Collections.Immutable;
using Rollwright.Arranging.Solving;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Listening.Hands;

/// <summary>What was heard at a moment, as a wish to the lattice: the hands are to have done something that sounds so.</summary>
/// <param name="Ways">Sets of keys as the hands know them (without the capo), ascending, each with its price.</param>
/// <param name="Silent">Price of having done nothing.</param>
/// <param name="Otherwise">Price of anything else.</param>
/// <param name="Slurred">Price of having slurred it.</param>
/// <param name="Plucked">Price of having plucked it.</param>
/// <param name="Strings">On which string each key was likely played.</param>
/// <param name="OtherString">Price of having played it on another.</param>
internal sealed record HeardWish(
    ImmutableArray<(ImmutableArray<int> Keys, int Price)> Ways,
    int Silent,
    int Otherwise,
    int Slurred,
    int Plucked,
    ImmutableArray<(int Key, int String)> Strings,
    int OtherString,
    Tuning Tuning
) : IWish
{
    public int Missing(PathStep done)
    {
        Span<int> keys = stackalloc int[3];
        var (count, strings) = (0, 0);
        if (done.SlurString != 0)
        {
            keys[count++] = Tuning.KeyOf(done.SlurString, done.Shape.FretOn(done.SlurString));
            strings += Elsewhere(keys[0], done.SlurString);
        }
        else
            foreach (var (_, on) in done.Event.Plucks)
            {
                // Two strings at the same pitch are heard as one.
                var key = Tuning.KeyOf(on, done.Shape.FretOn(on));
                if (!keys[..count].Contains(key))
                    keys[count++] = key;
                strings += Elsewhere(key, on);
            }
        keys[..count].Sort();
        // Notes are no more left out where hands cannot reach their likeliest strings, however many they are.
        if (count == 0)
            strings = OtherString * Strings.Length;
        var best = count == 0 ? Silent : Otherwise;
        foreach (var (heard, price) in Ways)
            if (price < best && heard.AsSpan().SequenceEqual(keys[..count]))
                best = price;
        return best + strings + (done.SlurString != 0 ? Slurred : Plucked);
    }

    private int Elsewhere(int key, int on)
    {
        foreach (var (heard, likely) in Strings)
            if (heard == key && likely != 0 && likely != on)
                return OtherString;
        return 0;
    }
}
