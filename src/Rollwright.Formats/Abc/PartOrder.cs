using System.Collections.Immutable;
using Rollwright.Formats.Messages;
using Rollwright.Music.Tunes;

namespace Rollwright.Formats.Abc;

/// <summary>
/// The order of parts that a head asks for, "AABB", "A2(BC)2" (ABC 2.1, section 3.1.9), written out: the bars are
/// put in that order, a part that comes twice running gets a repeat, and one that comes back later is copied.
/// </summary>
internal static class PartOrder
{
    public static ImmutableArray<TuneBar> Apply(List<TuneBar> bars, string order, int line, MessageLog log)
    {
        var labels = Read(order);
        var parts = Parts(bars);
        if (labels.Count == 0 || parts.Count == 0)
            return [.. bars];
        var missing = labels.Find(label => !parts.ContainsKey(label));
        if (missing != default)
        {
            log.Warning(
                line,
                3,
                $"the order of parts asks for part {missing}, which the tune does not have",
                $"label it with P:{missing}; the bars are played as written"
            );
            return [.. bars];
        }
        var written = ImmutableArray.CreateBuilder<TuneBar>();
        // What stands before the first label is an introduction and is played once.
        written.AddRange(bars.TakeWhile(bar => bar.Marks.Part is null));
        for (var i = 0; i < labels.Count; )
        {
            var times = 1;
            while (i + times < labels.Count && labels[i + times] == labels[i])
                times++;
            Write(parts[labels[i]], times, written);
            i += times;
            if (written.Count > AbcLimits.MostBars)
            {
                log.Error(
                    line,
                    3,
                    $"the order of parts comes to more than {AbcLimits.MostBars} bars",
                    "shorten it; the bars are played as written"
                );
                return [.. bars];
            }
        }
        return written.ToImmutable();
    }

    private static void Write(List<TuneBar> part, int times, ImmutableArray<TuneBar>.Builder written)
    {
        var isPlain = part.TrueForAll(bar =>
            bar.Marks is { RepeatStart: false, RepeatEnd: < 2, EndingStart.IsEmpty: true }
        );
        if (times > 1 && isPlain && times <= AbcLimits.MostPasses)
        {
            for (var i = 0; i < part.Count; i++)
            {
                var marks = part[i].Marks;
                if (i == 0)
                    marks = marks with { RepeatStart = true };
                if (i == part.Count - 1)
                    marks = marks with { RepeatEnd = times };
                written.Add(part[i] with { Marks = marks });
            }
            return;
        }
        for (var time = 0; time < times; time++)
            written.AddRange(part);
    }

    private static Dictionary<char, List<TuneBar>> Parts(List<TuneBar> bars)
    {
        var parts = new Dictionary<char, List<TuneBar>>();
        List<TuneBar>? current = null;
        foreach (var bar in bars)
        {
            // Only the first part of a name counts; a second one is not reached by the order.
            if (bar.Marks.Part is { Length: > 0 } label && !parts.TryAdd(label[0], current = []))
                current = [];
            current?.Add(bar);
        }
        return parts;
    }

    /// <summary>The labels in order of play; empty where the text is no order of parts.</summary>
    public static List<char> Read(string order)
    {
        var at = 0;
        return Sequence(order, ref at, 0) is { } labels && at == order.Length ? labels : [];
    }

    private static List<char>? Sequence(string order, ref int at, int depth)
    {
        var labels = new List<char>();
        while (at < order.Length && order[at] != ')')
        {
            List<char>? item = null;
            if (char.IsAsciiLetterUpper(order[at]))
                item = [order[at++]];
            else if (order[at] == '(' && depth < 4)
            {
                at++;
                item = Sequence(order, ref at, depth + 1);
                if (item is null || at == order.Length)
                    return null;
                at++;
            }
            else if (order[at++] is not ('.' or ' '))
                return null;
            var times = 0;
            while (at < order.Length && char.IsAsciiDigit(order[at]))
                times = Math.Min(99, (times * 10) + order[at++] - '0');
            for (var i = 0; item is not null && i < Math.Max(1, times); i++)
                labels.AddRange(item);
            if (labels.Count > AbcLimits.MostParts)
                return null;
        }
        return labels;
    }
}
