using Rollwright.Music.Metre;

namespace Rollwright.Listening.Rhythm;

/// <summary>
/// The metre of a banjo's take: 4/4, 3/4 or 6/8, under which what the hands do at each step is likeliest, by a table trained on
/// breaks, and whose phrases agree with where the take comes again. 2/2 and 2/4 sound as 4/4 does.
/// </summary>
internal static class TakeMetre
{
    /// <param name="take">By time; at least one.</param>
    /// <param name="drone">The key of the open short string.</param>
    /// <param name="tables">What is likely in each metre; null for the built-in ones.</param>
    public static TimeSignature Of(
        IReadOnlyList<TakeEvidence.Begun> take,
        int drone,
        IReadOnlyList<MetreTable>? tables = null
    )
    {
        var (kinds, line) = (TakeEvidence.Of(take, drone), TakeEvidence.Line(take));
        if (IsRoll(kinds))
            return TimeSignature.Common;
        return (tables ?? MetreTable.OfTakes).MaxBy(table => Score(table, kinds, line))!.Time;
    }

    // How well a metre explains a take, wherever its bars begin.
    private static double Score(MetreTable table, int[] kinds, int[] line)
    {
        var edge = ListeningTable.Of("metre-edge");
        return Enumerable.Range(0, table.Kinds.Length).Max(first => table.Likelihood(kinds, first, edge))
            + (ListeningTable.Of("metre-return") * table.Returning(line))
            + (ListeningTable.Of("metre-bars") * table.Rolling(kinds))
            - Doubt(table.Time);
    }

    // A roll over and over, without a melody: three times four steps would fit two bars of six as well.
    private static bool IsRoll(int[] kinds) =>
        Math.Max(MetreTable.Same(kinds, 4), MetreTable.Same(kinds, 8)) >= ListeningTable.Of("metre-roll");

    // Most of what is played on a banjo is in twos: another metre must explain more.
    private static double Doubt(TimeSignature time) =>
        time == TimeSignature.Common ? 0 : ListeningTable.Of("metre-other");
}
