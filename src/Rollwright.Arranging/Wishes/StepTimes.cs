using System.Collections.Immutable;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Wishes;

/// <summary>The steps of one bar: those of its metre, and others between them where the tune has a note.</summary>
public static class StepTimes
{
    /// <param name="bar">The bar.</param>
    /// <param name="isPickup">Its odd piece, if any, comes first: the bar line after it completes it.</param>
    /// <param name="followsTune">Every note gets a step; otherwise only those that halve a step of the metre.</param>
    /// <returns>In order; Main is the number of the metre's step, -1 for a step between.</returns>
    public static ImmutableArray<(Fraction At, int Main)> Of(TuneBar bar, bool isPickup, bool followsTune)
    {
        var metre = OfMetre(bar, isPickup);
        var ends = metre.Skip(1).Append(bar.Length).ToArray();
        var onsets = bar.Notes.Where(note => !note.TiedFromBefore).Select(note => note.At).ToHashSet();
        var times = ImmutableArray.CreateBuilder<(Fraction, int)>();
        for (var i = 0; i < metre.Count; i++)
        {
            var (at, end) = (metre[i], ends[i]);
            var inside = onsets.Where(onset => onset > at && onset < end).Order().ToArray();
            var half = at + (Fraction.Min(bar.Time.Step, end - at) * new Fraction(1, 2));
            if (!followsTune)
            {
                times.Add((at, i));
                if (inside.Contains(half))
                    times.Add((half, -1));
                continue;
            }
            // Where the tune divides a beat in its own way, as in a triplet, the metre's step inside gives way to it.
            var before = onsets.Where(onset => onset < at).DefaultIfEmpty(at).Max();
            var givesWay =
                !onsets.Contains(at)
                && inside is [var next, ..]
                && next - at < half - at
                && before > at - bar.Time.Step;
            if (!givesWay)
                times.Add((at, i));
            foreach (var onset in inside)
                times.Add((onset, -1));
        }
        return times.ToImmutable();
    }

    private static List<Fraction> OfMetre(TuneBar bar, bool isPickup)
    {
        var step = bar.Time.Step;
        var odd = bar.Length % step;
        var times = new List<Fraction>();
        for (var at = Fraction.Zero; at < bar.Length; )
        {
            times.Add(at);
            // An odd piece at the end belongs to the last step: two short steps running would rush a finger.
            var left = bar.Length - at;
            at +=
                isPickup && at == Fraction.Zero && odd > Fraction.Zero ? odd
                : left < step * 2 ? left
                : step;
        }
        return times;
    }
}
