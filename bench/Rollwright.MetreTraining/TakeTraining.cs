using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Tunings;
using Rollwright.Listening.Rhythm;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.MetreTraining;

/// <summary>
/// The table of a banjo's takes: <c>data/take-metres.txt</c>, from breaks that the arranger made of tunes in every style. Every
/// other tune is kept aside, and how often its metre is found is told.
/// </summary>
internal static class TakeTraining
{
    // Tunes of each metre; more did not change the table's second digit.
    private const int Most = 300;

    private const string About =
        "# How likely a banjo does something at each place of a bar, in steps: natural logarithms of odds against its share in\n"
        + "# breaks of any metre; first, last: of the chance that the first or the last note of a break stands there. Trained on\n"
        + "# breaks of an open collection by bench/Rollwright.MetreTraining --takes (docs/listening.md).\n";

    private static readonly Style[] Styles = [.. StyleTable.Solo];

    private static readonly TimeSignature[] Metres = [new(4, 4), new(3, 4), new(6, 8)];

    public static string Train(IReadOnlyList<Tune> tunes)
    {
        var counts = new MetreCounts(MetreTable.TakeKinds);
        var aside = new List<(TimeSignature Time, List<TakeEvidence.Begun> Take, int Drone)>();
        foreach (var time in Metres)
        {
            var steps = (int)(time.Bar / time.Step).ToDouble();
            counts.Open(time, steps);
            var fitting = tunes
                .Where(tune => Heard(tune.Time) == time && tune.Bars.All(bar => bar.Time == tune.Time))
                .ToList();
            var apart = Math.Max(1, fitting.Count / Most);
            var breaks = fitting
                .Where((_, i) => i % apart == 0)
                .AsParallel()
                .AsOrdered()
                .Select((tune, i) => Arrange(tune, i))
                .OfType<Break>()
                .ToList();
            foreach (var (played, i) in breaks.Select((played, i) => (played, i)))
            {
                var (take, start) = Take(played);
                if (take.Count < 16)
                    continue;
                var drone = played.Setting.SoundingKeyOf(Neck.ShortString, 0);
                if (i % 2 == 0)
                    counts.Add(time, start, TakeEvidence.Of(take, drone));
                else
                    aside.Add((time, take, drone));
            }
            Console.WriteLine($"{time}: {breaks.Count} breaks");
        }
        var table = counts.Table(About);
        Tell(MetreTable.Read("take-metres.txt", table, MetreTable.TakeKinds), aside);
        return table;
    }

    // 2/2 and 2/4 sound as 4/4 does.
    private static TimeSignature Heard(TimeSignature time) =>
        time == TimeSignature.Cut || time == new TimeSignature(2, 4) ? TimeSignature.Common : time;

    private static Break? Arrange(Tune tune, int number)
    {
        try
        {
            return Arranger.Arrange(tune, new() { Style = Styles[number / 2 % Styles.Length] }).Break;
        }
        catch (ArrangeException)
        {
            return null;
        }
    }

    // What begins, in half steps from the first beginning, and the step of the bar at which that is.
    private static (List<TakeEvidence.Begun> Take, int Start) Take(Break played)
    {
        var step = played.Time.Step;
        var take = played
            .Played()
            .GroupBy(one => one.At)
            .OrderBy(together => together.Key)
            .Select(together =>
                (
                    At: (int)Math.Floor((together.Key / step * 2).ToDouble()),
                    Keys: together.Select(one => played.KeyOf(one.Stroke)).Distinct().Order().ToImmutableArray(),
                    IsSoft: together.All(one => one.Stroke.Slur is not null)
                )
            )
            .ToList();
        if (take.Count == 0)
            return ([], 0);
        var opening = played.Bars[played.Order[0]];
        var gone = (opening.Length < opening.Time.Bar ? opening.Time.Bar - opening.Length : Fraction.Zero) / step;
        var first = take[0].At;
        return (
            [.. take.Select(one => new TakeEvidence.Begun(one.At - first, one.Keys, one.IsSoft))],
            (int)gone.ToDouble() + (first / 2)
        );
    }

    private static void Tell(
        IReadOnlyList<MetreTable> tables,
        List<(TimeSignature Time, List<TakeEvidence.Begun> Take, int Drone)> aside
    )
    {
        foreach (var time in Metres)
        {
            var said = aside
                .Where(one => one.Time == time)
                .Select(one => TakeMetre.Of(one.Take, one.Drone, tables))
                .ToList();
            Console.WriteLine(
                $"kept aside, {time}: {said.Count}, heard as "
                    + string.Join(", ", Metres.Select(one => $"{one} {said.Count(heard => heard == one)}"))
            );
        }
    }
}
