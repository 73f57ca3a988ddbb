using System.Collections.Immutable;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Wishes;

/// <summary>Phrases of two bars, counted from the start of each part (common practice of fiddle tunes, no source).</summary>
public static class Phrases
{
    private const int BarsAPhrase = 2;

    /// <summary>For each written bar, whether a phrase begins with it; a pickup opens the phrase that it leads into.</summary>
    public static ImmutableArray<bool> Openings(Tune tune, BarTree tree)
    {
        var opens = new bool[tune.Bars.Length];
        // Full bars of the part before this one ends.
        var count = new int[tune.Bars.Length];
        for (var bar = 0; bar < opens.Length; bar++)
        {
            var parent = tree.Parent[bar];
            var isStart =
                parent < 0
                || tune.Bars[bar].Marks.RepeatStart
                || (
                    tune.Bars[bar].Marks.EndingStart.IsEmpty
                    && tune.Bars[parent].Marks is { RepeatEnd: > 1 } or { SectionEnd: true }
                );
            var before = isStart ? 0 : count[parent];
            var isPickup = tune.Bars[bar].IsPartial;
            opens[bar] = before % BarsAPhrase == 0;
            count[bar] = before + (isPickup ? 0 : 1);
        }
        return [.. opens];
    }

    /// <summary>For each written bar, whether a part, or an ending of one, ends with it.</summary>
    public static ImmutableArray<bool> PartEnds(Tune tune) =>
        [
            .. tune.Bars.Select(
                (bar, i) =>
                    i + 1 == tune.Bars.Length
                    || bar.Marks is { RepeatEnd: > 1 } or { SectionEnd: true }
                    || tune.Bars[i + 1].Marks.RepeatStart
            ),
        ];
}
