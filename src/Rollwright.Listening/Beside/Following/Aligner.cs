namespace Rollwright.Listening.Beside.Following;

/// <summary>
/// Which gesture heard is which gesture meant: the cheapest way through all pairs, by dynamic programming over onsets as in
/// score following (Dannenberg 1984), with a tempo of its own on every way (Raphael 1999 has it as a hidden variable; here
/// each way carries its best guess) and with jumps to where players begin again (Arzt, Widmer and Dixon 2008; Nakamura and
/// others 2016). Between two stretches that follow the break any number of gestures may lie outside it.
/// </summary>
internal sealed class Aligner
{
    // Steps back that are tried: a few gestures missed or added each, or one missed at most in a long fill.
    private const int Near = 5;
    private const int Far = 32;
    private const int FarMissed = 2;
    private const double Never = double.MaxValue / 4;

    // No player changes the tempo further than this within a take (assumption).
    private const double Widest = 3;

    private readonly IReadOnlyList<Gesture> heard;
    private readonly IReadOnlyList<Gesture> meant;
    private readonly AlignerPrices prices;
    private readonly double wholeNote;
    private readonly double firstPace;

    // Of the last rows, a row a gesture heard: the cheapest way that ends with this pair, and its seconds a whole note
    // (NaN until two pairs tell them).
    private readonly double[][] costs;
    private readonly double[][] paces;

    // How each pair was reached: 0 is the first, 1 after a jump, else the steps back in both.
    private readonly ushort[][] back;

    // By gesture heard, the cheapest way that left the break then or before, and where it left.
    private readonly double[] outside;
    private readonly (int Heard, int Meant, double Pace)[] left;

    private Aligner(
        IReadOnlyList<Gesture> heard,
        IReadOnlyList<Gesture> meant,
        AlignerPrices prices,
        double wholeNote,
        bool isFree
    )
    {
        (this.heard, this.meant, this.prices, this.wholeNote) = (heard, meant, prices, wholeNote);
        firstPace = isFree ? double.NaN : wholeNote;
        (costs, paces) = (new double[Far + 1][], new double[Far + 1][]);
        for (var row = 0; row <= Far; row++)
            (costs[row], paces[row]) = (new double[meant.Count], new double[meant.Count]);
        back = new ushort[heard.Count][];
        (outside, left) = (new double[heard.Count], new (int, int, double)[heard.Count]);
    }

    /// <param name="heard">By time in seconds.</param>
    /// <param name="meant">By time in whole notes.</param>
    /// <param name="prices">What the ways pay.</param>
    /// <param name="wholeNote">Seconds a whole note at the tempo marked; the take's own is found.</param>
    /// <returns>Pairs in order of what was heard.</returns>
    public static List<Pair> Align(
        IReadOnlyList<Gesture> heard,
        IReadOnlyList<Gesture> meant,
        AlignerPrices prices,
        double wholeNote,
        CancellationToken stop
    )
    {
        if (heard.Count == 0 || meant.Count == 0)
            return [];
        var first = new Aligner(heard, meant, prices, wholeNote, true).Solve(stop);
        var paces = Enumerable
            .Range(1, Math.Max(0, first.Count - 1))
            .Where(i => !first[i].IsJump)
            .Select(i =>
                (heard[first[i].Heard].At - heard[first[i - 1].Heard].At)
                / (meant[first[i].Meant].At - meant[first[i - 1].Meant].At)
            )
            .Order()
            .ToList();
        // Once the take's own tempo is known, the first two onsets need not tell it.
        return paces.Count < 3 ? first : new Aligner(heard, meant, prices, paces[paces.Count / 2], false).Solve(stop);
    }

    private List<Pair> Solve(CancellationToken stop)
    {
        for (var i = 0; i < heard.Count; i++)
        {
            stop.ThrowIfCancellationRequested();
            Fill(i);
            Leave(i);
        }
        return Trace();
    }

    private void Fill(int i)
    {
        var (row, pace, ways) = (costs[i % (Far + 1)], paces[i % (Far + 1)], back[i] = new ushort[meant.Count]);
        for (var j = 0; j < meant.Count; j++)
        {
            var (best, bestPace, way) = ((prices.Outside * i) + prices.First(j), firstPace, (ushort)0);
            if (i > 0 && outside[i - 1] < Never)
            {
                var (_, from, kept) = left[i - 1];
                var jump = outside[i - 1] + prices.To(from, j);
                if (jump < best)
                    (best, bestPace, way) = (jump, kept, 1);
            }
            for (var di = 1; di <= Math.Min(i, Far); di++)
            for (var dj = 1; dj <= Math.Min(j, di <= Near ? Near : FarMissed); dj++)
            {
                var before = costs[(i - di) % (Far + 1)][j - dj];
                if (before >= best)
                    continue;
                var cost = before + (prices.Added * (di - 1)) + prices.Missed(j - dj + 1, j);
                if (cost >= best)
                    continue;
                var (late, next) = Timing(paces[(i - di) % (Far + 1)][j - dj], i - di, i, j - dj, j);
                if (cost + late < best)
                    (best, bestPace, way) = (cost + late, next, (ushort)((di << 3) | dj));
            }
            row[j] = best + prices.Mismatch(heard[i], meant[j]);
            (pace[j], ways[j]) = (bestPace, way);
        }
    }

    // What the time between two pairs costs at a pace, and the pace after it.
    private (double Cost, double Pace) Timing(double pace, int i0, int i, int j0, int j)
    {
        var (seconds, whole) = (heard[i].At - heard[i0].At, meant[j].At - meant[j0].At);
        var here = seconds / whole;
        if (double.IsNaN(pace))
        {
            var away = Math.Log(here / wholeNote) / prices.TempoFree;
            var price = prices.Late * away * away;
            return price >= prices.Hesitate
                ? (prices.Hesitate, double.NaN)
                : (price, Math.Clamp(here, wholeNote / Widest, wholeNote * Widest));
        }
        var usual = prices.Sway + (prices.SwayPart * whole * pace);
        var late = (seconds - (whole * pace)) / usual;
        var cost = prices.Late * late * late;
        if (cost >= prices.Hesitate)
            return (prices.Hesitate, pace);
        var trust = whole / (whole + prices.TempoMemory);
        var after = pace * Math.Exp(trust * Math.Clamp(Math.Log(here / pace), -0.25, 0.25));
        return (cost, Math.Clamp(after, wholeNote / Widest, wholeNote * Widest));
    }

    private void Leave(int i)
    {
        var row = costs[i % (Far + 1)];
        var best = 0;
        for (var j = 1; j < row.Length; j++)
            if (row[j] < row[best])
                best = j;
        (outside[i], left[i]) = (row[best], (i, best, paces[i % (Far + 1)][best]));
        if (i > 0 && outside[i - 1] + prices.Outside < outside[i])
            (outside[i], left[i]) = (outside[i - 1] + prices.Outside, left[i - 1]);
        // The end of the take: who stops early pays for it, so that the last of two equal endings is taken.
        var rest = prices.Outside * (heard.Count - 1 - i);
        for (var j = 0; j < row.Length; j++)
            if (row[j] + rest + prices.Last(j) < end.Cost)
                end = (row[j] + rest + prices.Last(j), i, j);
    }

    private (double Cost, int Heard, int Meant) end = (Never, -1, -1);

    private List<Pair> Trace()
    {
        var pairs = new List<Pair>();
        var (i, j) = (end.Heard, end.Meant);
        while (i >= 0)
        {
            var way = back[i][j];
            pairs.Add(new(i, j, way <= 1));
            if (way == 0)
                break;
            (i, j) = way == 1 ? (left[i - 1].Heard, left[i - 1].Meant) : (i - (way >> 3), j - (way & 7));
        }
        pairs.Reverse();
        return pairs;
    }
}
