using Rollwright.Music.Metre;

namespace Rollwright.Banjo.Breaks;

/// <summary>
/// From times as written to times as played, both in whole notes from the start of the break as played. Within each
/// pair of steps the first stretches and the second shrinks, so that whatever stands between keeps its order. Pairs that
/// divide otherwise (a triplet, sixteenths of the tune) are played as written. Without a swing all times stay.
/// </summary>
public sealed class SwungTime
{
    private readonly Fraction share;
    private readonly List<Pair> pairs = [];

    // What is played in a pair of steps, and whether it swings.
    private readonly record struct Pair(Fraction Start, Fraction Step, bool Swings)
    {
        public Fraction End => Start + (Step * 2);
    }

    private SwungTime(Swing? swing) => share = swing?.FirstShare ?? new(1, 2);

    public static SwungTime Of(Break played)
    {
        var time = new SwungTime(played.Swing);
        if (played.Swing is null)
            return time;
        time.AddPairs(played);
        time.KeepDivided(played);
        return time;
    }

    /// <summary>When something is played that is written at a time.</summary>
    public Fraction At(Fraction written)
    {
        var index = IndexOf(written);
        if (index < 0 || !pairs[index].Swings || written >= pairs[index].End)
            return written;
        var (start, step, _) = pairs[index];
        var middle = start + (step * 2 * share);
        var within = written - start;
        return within < step
            ? start + (within * 2 * share)
            : middle + ((within - step) * 2 * (new Fraction(1) - share));
    }

    // Pairs are counted from the bar line; a pickup ends at one, and a short bar goes on where the one before stopped.
    private void AddPairs(Break played)
    {
        var start = Fraction.Zero;
        Fraction? within = null;
        foreach (var index in played.Order)
        {
            var bar = played.Bars[index];
            within = bar.IsPartial ? within ?? bar.Time.Bar - bar.Length : Fraction.Zero;
            if (!bar.Time.IsCompound)
                AddPairs(start, start - (within.Value % (bar.Time.Step * 2)), start + bar.Length, bar.Time.Step);
            start += bar.Length;
            within = (within.Value + bar.Length) % bar.Time.Bar;
        }
    }

    private void AddPairs(Fraction bar, Fraction first, Fraction end, Fraction step)
    {
        for (var start = first; start < end; start += step * 2)
        {
            // The second step of a pair that the bar before began.
            if (start < bar && pairs.Count > 0 && pairs[^1].Start == start)
                continue;
            // A bar that stops within its last pair cuts it short.
            if (pairs.Count > 0 && pairs[^1].End > start)
                pairs[^1] = pairs[^1] with { Swings = false };
            pairs.Add(new(start, step, true));
        }
    }

    private void KeepDivided(Break played)
    {
        foreach (var (at, stroke, _, _) in played.Played())
        {
            var index = IndexOf(at);
            if (index < 0 || at >= pairs[index].End || (stroke.Slur is not null && !stroke.IsMelody))
                continue;
            if (!((at - pairs[index].Start) / pairs[index].Step).IsWhole)
                pairs[index] = pairs[index] with { Swings = false };
        }
    }

    // The last pair that starts at or before the time; -1 where none does.
    private int IndexOf(Fraction time)
    {
        var (low, high) = (0, pairs.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (pairs[middle].Start <= time)
                low = middle + 1;
            else
                high = middle;
        }
        return low - 1;
    }
}
