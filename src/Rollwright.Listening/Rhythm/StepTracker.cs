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

    // Four bars of 4/4: a longer pause is written so long.
    private const int LongestPause = 64;

    // Fewer slurs show no habit.
    private const int Fewest = 6;

    /// <summary>In the place of a beginning that is no step.</summary>
    public const int NoStep = -1;

    /// <param name="At">By beginning, half steps from the first one; <see cref="NoStep"/> for what is none.</param>
    /// <param name="Step">Seconds of the commonest step.</param>
    /// <param name="Swing">How far the second step of each pair comes late, in steps: 0 even, 1/3 for two to one.</param>
    public sealed record Tracked(int[] At, double Step, double Swing);

    /// <param name="times">Seconds, ascending; at least two.</param>
    /// <param name="isSoft">Whether each has hardly an attack: then its time is known less well.</param>
    /// <param name="step">Seconds of a step where it is known; null to find it.</param>
    public static Tracked Track(IReadOnlyList<double> times, IReadOnlyList<bool> isSoft, double? step)
    {
        var tracked = Count(times, isSoft, step ?? Usual(times));
        return step is null && AreHalves(tracked.At, isSoft) ? Count(times, isSoft, 2 * tracked.Step) : tracked;
    }

    // Where slurs halve most of the steps, the commonest distance is half a step: then hardly a pluck stands on every other.
    private static bool AreHalves(int[] at, IReadOnlyList<bool> isSoft)
    {
        var (plucked, slurred) = (new int[2], new int[2]);
        for (var i = 0; i < at.Length; i++)
            if (at[i] != NoStep && at[i] % 2 == 0)
                (isSoft[i] ? slurred : plucked)[at[i] / 2 % 2]++;
        return slurred[1] >= Fewest
            && slurred[1] > slurred[0]
            && plucked[1] <= ListeningTable.Of("step-halves") * plucked[0];
    }

    private static Tracked Count(IReadOnlyList<double> times, IReadOnlyList<bool> isSoft, double usual) =>
        new[] { 0, 0.2, 1.0 / 3 }
            .Select(swing => (Path: Follow(times, isSoft, usual, swing), Swing: swing))
            .Select(tried =>
                (
                    tried.Path,
                    tried.Swing,
                    Cost: tried.Path.Cost + (tried.Swing > 0 ? ListeningTable.Of("swing") * times.Count : 0)
                )
            )
            .MinBy(tried => tried.Cost)
            is var best
            ? new(best.Path.At, usual, best.Swing)
            : throw new InvalidOperationException("three ways were tried");

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

    private static (int[] At, double Cost) Follow(
        IReadOnlyList<double> times,
        IReadOnlyList<bool> isSoft,
        double usual,
        double swing
    )
    {
        var stray = ListeningTable.Of("step-stray");
        var (plain, soft) = (ListeningTable.Of("step-jitter"), ListeningTable.Of("step-jitter-soft"));
        var layers = new Layer[times.Count];
        layers[0] = Layer.First();
        for (var i = 1; i < times.Count; i++)
        {
            layers[i] = Layer.Empty();
            layers[i].Arrive(layers[i - 1], 1, times[i] - times[i - 1], Jitter(i, i - 1), usual, swing, 0);
            // What is no step: it is passed over, and the distance is taken from the one before.
            if (i > 1)
            {
                layers[i].Arrive(layers[i - 2], 2, times[i] - times[i - 2], Jitter(i, i - 2), usual, swing, stray);
                layers[i - 2].Forget();
            }
        }
        var at = new int[times.Count];
        Array.Fill(at, NoStep);
        var state = layers[^1].Cheapest;
        var cost = layers[^1].Cost[state];
        var places = new Stack<(int Index, int Halves)>();
        for (var i = times.Count - 1; i > 0; )
        {
            var (from, halves, back) = layers[i].From[state];
            places.Push((i, halves));
            (i, state) = (i - back, from);
        }
        at[0] = 0;
        var place = 0;
        foreach (var (index, halves) in places)
            at[index] = place += halves;
        return (at, cost);

        double Jitter(int one, int other) => isSoft[one] || isSoft[other] ? soft : plain;
    }

    // Cost and origin of every place within the pair at every tempo, at one beginning.
    private sealed class Layer(double[] cost, (short State, byte Halves, byte Back)[] from)
    {
        private const int Tempi = (2 * Reach) + 1;

        public double[] Cost { get; private set; } = cost;

        public (short State, byte Halves, byte Back)[] From { get; } = from;

        /// <summary>What it cost to be here is not asked any more: hours of a take have thousands of layers.</summary>
        public void Forget() => Cost = [];

        public int Cheapest => Array.IndexOf(Cost, Cost.Min());

        public static Layer Empty()
        {
            var cost = new double[Pair * Tempi];
            Array.Fill(cost, double.PositiveInfinity);
            return new(cost, new (short, byte, byte)[Pair * Tempi]);
        }

        // A take begins with a step, the first or the second of a pair.
        public static Layer First()
        {
            var first = Empty();
            first.Cost.AsSpan(0, Tempi).Clear();
            first.Cost.AsSpan(2 * Tempi, Tempi).Clear();
            return first;
        }

        public void Arrive(Layer before, int back, double gap, double jitter, double usual, double swing, double more)
        {
            var (worst, between) = (ListeningTable.Of("step-worst"), ListeningTable.Of("step-between"));
            var change = Math.Max(1, Math.Sqrt(gap / usual)) * ListeningTable.Of("step-change");
            for (var place = 0; place < Pair; place++)
            for (var tempo = 0; tempo < Tempi; tempo++)
            {
                var (least, source) = before.Cheapened(place, tempo, change);
                if (double.IsPositiveInfinity(least))
                    continue;
                var half = 0.5 * usual * Math.Exp((tempo - StepTracker.Reach) * Grid);
                var middle = (int)Math.Min(LongestPause, Math.Round(gap / half));
                for (var halves = Math.Max(1, middle - 1); halves <= Math.Max(1, middle + 1); halves++)
                {
                    var arrives = (place + halves) % Pair;
                    var wanted = (halves + Late(arrives, swing) - Late(place, swing)) * half;
                    var sum =
                        least
                        + more
                        + (middle == LongestPause ? 0 : Math.Min(worst, Squared((gap - wanted) / jitter)))
                        + (arrives % 2 == 1 ? between : 0);
                    var to = (arrives * Tempi) + tempo;
                    if (sum < Cost[to])
                        (Cost[to], From[to]) = (sum, ((short)source, (byte)halves, (byte)back));
                }
            }
        }

        // The cheapest way to a tempo at the same place, before the distance is looked at.
        private (double Cost, int State) Cheapened(int place, int tempo, double change)
        {
            var (least, source) = (double.PositiveInfinity, 0);
            var last = Math.Min(Tempi - 1, tempo + FarthestChange);
            for (var old = Math.Max(0, tempo - FarthestChange); old <= last; old++)
            {
                var sum = Cost[(place * Tempi) + old] + Squared((tempo - old) * Grid / change);
                if (sum < least)
                    (least, source) = (sum, (place * Tempi) + old);
            }
            return (least, source);
        }
    }

    /// <summary>How late swing brings a place, counted in half steps, in the same.</summary>
    public static double Late(int place, double swing) =>
        2
        * swing
        * (
            (place % Pair) switch
            {
                1 => 0.5,
                2 => 1,
                3 => 0.5,
                _ => 0,
            }
        );

    private static double Squared(double x) => x * x;
}
