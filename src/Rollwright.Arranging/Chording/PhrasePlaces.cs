using System.Collections.Immutable;
using Rollwright.Arranging.Wishes;
using Rollwright.Music.Forms;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>Where each bar stands in its part (from a repeat, double bar or label to the next).</summary>
/// <param name="FromStart">Bars of the part before this one, endings counted alike; -1 for the part's pickup.</param>
/// <param name="ToEnd">Bars of the part after this one, up to the end of its own ending.</param>
/// <param name="StartsPart">The part's first bar, pickup or not.</param>
internal sealed record PhrasePlaces(
    ImmutableArray<int> FromStart,
    ImmutableArray<int> ToEnd,
    ImmutableArray<bool> StartsPart
)
{
    public bool IsPickup(int bar) => FromStart[bar] < 0;

    public static PhrasePlaces Of(Tune tune, BarTree tree)
    {
        var count = tune.Bars.Length;
        var fromStart = new int[count];
        var toEnd = new int?[count];
        var starts = new bool[count];
        for (var i = 0; i < count; i++)
        {
            starts[i] = tree.Parent[i] < 0 || Parts(tune.Bars[i - 1].Marks, tune.Bars[i].Marks);
            fromStart[i] =
                !starts[i] ? fromStart[tree.Parent[i]] + 1
                : tune.Bars[i].IsPartial && i + 1 < count ? -1
                : 0;
        }
        for (var i = count - 1; i > 0; i--)
        {
            toEnd[i] ??= 0;
            if (!starts[i])
                toEnd[tree.Parent[i]] ??= toEnd[i] + 1;
        }
        return new([.. fromStart], [.. toEnd.Select(bars => bars ?? 0)], [.. starts]);
    }

    private static bool Parts(BarMarks before, BarMarks here) =>
        here.EndingStart.IsEmpty
        && (here.RepeatStart || here.Part is not null || before.RepeatEnd > 1 || before.SectionEnd);
}
