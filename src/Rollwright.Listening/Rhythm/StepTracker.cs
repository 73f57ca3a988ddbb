namespace Rollwright.Listening.Rhythm;

/// <summary>
/// Counts the steps from each beginning to the next: the cheapest path through tempi that change little by little and
/// whole numbers of half steps, by dynamic programming as beats are tracked (Ellis 2007, over beginnings instead of frames).
/// A roll is a stream of steps, so the commonest distance is taken for one.
/// </summary>
internal static class StepTracker
{
    /// <summary>Half steps in the pair of steps that swing stretches and shortens.</summary>
    private const int Pair = 4;

    // Tempi are tried from -Reach to Reach hundredths around the commonest.
    private const int Reach = 25;
    private const double Grid = 0.01;
    private const int FarthestChange = 6;

    /// <param name="At">By beginning, half steps from the first one.</param>
    /// <param name="Step">Seconds of the commonest step.</param>
    /// <param name="Swing">How far the second step of each pair comes late, in steps: 0 even, 1/3 for two to one.</param>
    public sealed record Tracked(int[] At, double Step, double Swing);

    /// <param name="times">Seconds, ascending; at least two.</param>
    /// <param name="step">Seconds of a step where it is known; null to find it.</param>
    public static Tracked Track(IReadOnlyList<double> times, double? step)
    {
        var usual = step ?? Usual(times);
        return new[] { 0, 0.2, 1.0 / 3 }
            .Select(swing => (Path: Follow(times, usual, swing), Swing: swing))
            .Select(tried =>
                (tried.Path, tried.Swing, Cost: tried.Path.Cost + (tried.Swing > 0 ? ListeningTable.Of("swing") * times.Count : 0))
            )
            .MinBy(tried => tried.Cost) is var best
            ? new(best.Path.At, usual, best.Swing)
            : throw new InvalidOperationException("three ways were tried");
    }

    // The top of the distances' density, each seen through a Gaussian of a few per cent.
    private static double Usual(IReadOnlyList<double> times)
    {
        var (shortest, longest) = (ListeningTable.Of("step-shortest"), ListeningTable.Of("step-longest"));
        var apart = new List<double>();
        for (var i = 1; i < times.Count; i++)
            if (times[i] - times[i - 1] is var gap && gap >= shortest / 2 && gap <= longest * 2)
                apart.Add(Math.Log(gap));
        if (apart.Count == 0)
            return Math.Clamp(times[1] - times[0], shortest, longest);
        var (best, most) = (shortest, -1.0);
        for (var tried = shortest; tried <= longest; tried *= 1.005)
        {
            var near = apart.Sum(gap => Math.Exp(-0.5 * Math.Pow((gap - Math.Log(tried)) / 0.04, 2)));
            if (near > most)
                (best, most) = (tried, near);
        }
        return best;
    }

    private static (int[] At, double Cost) Follow(IReadOnlyList<double> times, double usual, double swing)
    {
        const int Tempi = (2 * Reach) + 1;
        var (sigma, change, between) = (
            ListeningTable.Of("step-jitter"),
            ListeningTable.Of("step-change"),
            ListeningTable.Of("step-between")
        );
        var cost = new double[Pair * Tempi];
        Array.Fill(cost, double.PositiveInfinity);
        for (var tempo = 0; tempo < Tempi; tempo++)
        {
            cost[tempo] = 0;
            cost[(2 * Tempi) + tempo] = 0;
        }
        var back = new (int From, int Halves)[times.Count][];
        for (var i = 1; i < times.Count; i++)
        {
            var gap = times[i] - times[i - 1];
            var from = back[i] = new (int, int)[Pair * Tempi];
            var next = new double[Pair * Tempi];
            Array.Fill(next, double.PositiveInfinity);
            var allowed = Math.Max(1, Math.Sqrt(gap / usual)) * change;
            for (var place = 0; place < Pair; place++)
            for (var tempo = 0; tempo < Tempi; tempo++)
            {
                // The cheapest way to this tempo, before the gap is looked at.
                var (least, source) = (double.PositiveInfinity, 0);
                for (var old = Math.Max(0, tempo - FarthestChange); old <= Math.Min(Tempi - 1, tempo + FarthestChange); old++)
                {
                    var sum = cost[(place * Tempi) + old] + Squared((tempo - old) * Grid / allowed);
                    if (sum < least)
                        (least, source) = (sum, (place * Tempi) + old);
                }
                if (double.IsPositiveInfinity(least))
                    continue;
                var half = 0.5 * usual * Math.Exp((tempo - Reach) * Grid);
                var middle = (int)Math.Round(gap / half);
                for (var halves = Math.Max(1, middle - 1); halves <= Math.Max(1, middle + 1); halves++)
                {
                    var arrives = (place + halves) % Pair;
                    var wanted = (halves + Late(arrives, swing) - Late(place, swing)) * half;
                    var sum =
                        least
                        + Math.Min(ListeningTable.Of("step-worst"), Squared((gap - wanted) / sigma))
                        + (arrives % 2 == 1 ? between : 0);
                    var to = (arrives * Tempi) + tempo;
                    if (sum < next[to])
                        (next[to], from[to]) = (sum, ((place * Tempi) + source % Tempi, halves));
                }
            }
            cost = next;
        }
        var state = Array.IndexOf(cost, cost.Min());
        var total = cost[state];
        var at = new int[times.Count];
        for (var i = times.Count - 1; i > 0; i--)
        {
            at[i] = back[i][state].Halves;
            state = back[i][state].From;
        }
        for (var i = 1; i < at.Length; i++)
            at[i] += at[i - 1];
        return (at, total);
    }

    /// <summary>How late swing brings a place, counted in half steps, in the same.</summary>
    public static double Late(int place, double swing) =>
        2 * swing * ((place % Pair) switch { 1 => 0.5, 2 => 1, 3 => 0.5, _ => 0 });

    private static double Squared(double x) => x * x;
}
