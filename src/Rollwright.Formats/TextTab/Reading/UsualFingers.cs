using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>
/// Fingers where a page has none: thumb on strings 5, 4 and 3, index on 2, middle on 1; of notes together the lowest has the
/// thumb, the highest the middle finger; a long string that comes right after the same finger takes another (common
/// practice, no source).
/// </summary>
internal static class UsualFingers
{
    /// <param name="strings">Struck together, from 1.</param>
    /// <param name="before">The finger of the single note right before; null where there is none.</param>
    public static IReadOnlyList<RightFinger> For(IReadOnlyList<int> strings, RightFinger? before)
    {
        if (strings.Count == 1)
            return [Single(strings[0], before)];
        return
        [
            .. strings.Select(
                (_, i) =>
                    i == strings.Count - 1 ? RightFinger.T
                    : i == 0 ? RightFinger.M
                    : RightFinger.I
            ),
        ];
    }

    private static RightFinger Single(int banjoString, RightFinger? before)
    {
        if (banjoString == Neck.ShortString)
            return RightFinger.T;
        var usual =
            banjoString == 1 ? RightFinger.M
            : banjoString == 2 ? RightFinger.I
            : RightFinger.T;
        if (usual != before)
            return usual;
        return usual == RightFinger.I ? RightFinger.T : RightFinger.I;
    }
}
