using Rollwright.Banjo.Breaks;

namespace Rollwright.Lessons.Words;

/// <summary>Says of a bar that ends early where it ends and what follows, since one who counts on would be wrong.</summary>
internal sealed class BarEnds(Break played, Counting counting)
{
    /// <summary>"It ends before 2-and: the first time the pickup to bar 1 follows, the second time the pickup to bar 9." Empty for a bar that is full behind.</summary>
    public string Of(int bar)
    {
        if (!played.Bars[bar].IsPartial || played.Numbering[bar].IsShortInFront)
            return "";
        var order = played.Order;
        var next = Enumerable
            .Range(0, order.Length)
            .Where(i => order[i] == bar)
            .Select(i => i + 1 < order.Length ? order[i + 1] : (int?)null)
            .Select(after => after is { } known ? $"{counting.NameOf(known)} follows" : "the tune is over")
            .ToList();
        var ends = $"It ends before {counting.Of(bar, played.Bars[bar].Length)}";
        return next.Distinct().Count() == 1
            ? $"{ends}: {next[0]}."
            : $"{ends}: {string.Join(", ", next.Select((what, i) => $"{Time(i, next.Count)} {what}"))}.";
    }

    private static string Time(int index, int count) =>
        index == 0 ? "the first time"
        : index == count - 1 && index > 1 ? "the last time"
        : index == 1 ? "the second time"
        : $"the {index + 1}th time";
}
