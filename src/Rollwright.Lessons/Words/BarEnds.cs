using Rollwright.Banjo.Breaks;

namespace Rollwright.Lessons.Words;

/// <summary>
/// Says of a bar that ends early where it ends, and of it and of the last bar of a part what follows, since one who counts on, or
/// reads on, would be wrong.
/// </summary>
internal sealed class BarEnds(Break played, Counting counting)
{
    /// <summary>"The bar ends before 2-and: the first time the pickup to bar 1 follows, the second time the pickup to bar 9." Empty where the next bar follows a full one.</summary>
    public string Of(int bar)
    {
        var isShort = played.Bars[bar].IsPartial && !played.Numbering[bar].IsShortInFront;
        var order = played.Order;
        var next = Enumerable
            .Range(0, order.Length)
            .Where(i => order[i] == bar)
            .Select(i => i + 1 < order.Length ? order[i + 1] : (int?)null)
            .ToList();
        if (!isShort && (next.Count == 0 || next.TrueForAll(after => after == bar + 1)))
            return "";
        var said = next.Select(after => after is { } known ? $"{counting.NameOf(known)} follows" : "the tune is over")
            .ToList();
        var what =
            said.Distinct().Count() == 1
                ? said[0]
                : string.Join(", ", said.Select((one, i) => $"{Time(i, said.Count)} {one}"));
        return isShort
            ? $"The bar ends before {counting.Of(bar, played.Bars[bar].Length)}: {what}."
            : $"{char.ToUpperInvariant(what[0])}{what[1..]}.";
    }

    private static string Time(int index, int count) =>
        index == 0 ? "the first time"
        : index == count - 1 && index > 1 ? "the last time"
        : $"the {Counting.Ordinal(index)} time";
}
