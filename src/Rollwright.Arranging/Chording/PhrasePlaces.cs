using Rollwright.Arranging.Wishes;
using Rollwright.Music.Forms;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Chording;

/// <summary>Where each bar stands in its part: counted from the start, and from the end of its own ending.</summary>
internal sealed class PhrasePlaces
{
    private PhrasePlaces(int[] fromStart, int[] toEnd, bool[] isPickup, bool[] startsPart)
    {
        FromStart = fromStart;
        ToEnd = toEnd;
        IsPickup = isPickup;
        StartsPart = startsPart;
    }

    /// <summary>Full bars of the part before this one; a pickup has -1.</summary>
    public int[] FromStart { get; }

    /// <summary>Bars of the part after this one.</summary>
    public int[] ToEnd { get; }

    /// <summary>A part's first bar, shorter than its metre.</summary>
    public bool[] IsPickup { get; }

    public bool[] StartsPart { get; }

    public static PhrasePlaces Of(Tune tune, BarTree tree)
    {
        var count = tune.Bars.Length;
        var fromStart = new int[count];
        var toEnd = Enumerable.Repeat(-1, count).ToArray();
        var isPickup = new bool[count];
        var starts = new bool[count];
        for (var i = 0; i < count; i++)
        {
            var before = tree.Parent[i];
            starts[i] = i == 0 || (tune.Bars[i].Marks.EndingStart.IsEmpty && IsStart(tune.Bars[i - 1].Marks, tune.Bars[i].Marks));
            isPickup[i] = starts[i] && tune.Bars[i].IsPartial && i + 1 < count;
            fromStart[i] =
                isPickup[i] ? -1
                : starts[i] || before < 0 ? 0
                : fromStart[before] + 1;
        }
        for (var i = count - 1; i >= 0; i--)
        {
            toEnd[i] = Math.Max(0, toEnd[i]);
            var before = tree.Parent[i];
            if (before >= 0 && !starts[i] && toEnd[before] < 0)
                toEnd[before] = toEnd[i] + 1;
        }
        return new(fromStart, toEnd, isPickup, starts);
    }

    private static bool IsStart(BarMarks before, BarMarks here) =>
        here.RepeatStart || here.Part is not null || before.RepeatEnd > 1 || before.SectionEnd;
}
