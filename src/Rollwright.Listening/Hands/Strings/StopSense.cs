using System.Collections.Immutable;
using Rollwright.Listening.Takes;

namespace Rollwright.Listening.Hands.Strings;

/// <summary>
/// How much a fall of level speaks for a note having been ended by another on its string. Every banjo and every room has
/// its own; a take teaches it once most strings are known.
/// </summary>
/// <param name="Stopped">Falls of notes that a new note on their string ended, dB.</param>
/// <param name="Ringing">Falls of notes that went on.</param>
public sealed record StopSense(StopSense.Normal Stopped, StopSense.Normal Ringing)
{
    // Fewer notes teach nothing.
    private const int Fewest = 8;

    // Falls that lie no farther apart than this part of their spread say nothing: strings that ring on when they are left.
    private const double Apart = 1.1;

    // No single fall decides.
    private const double Most = 3;

    // A spread below is luck, dB.
    private const double Narrowest = 1.5;

    /// <param name="Mean">dB.</param>
    /// <param name="Spread">Standard deviation, dB.</param>
    public sealed record Normal(double Mean, double Spread)
    {
        internal double LogOf(double x) => (-0.5 * Math.Pow((x - Mean) / Spread, 2)) - Math.Log(Spread);

        internal static Normal Of(IReadOnlyCollection<double> values)
        {
            var mean = values.Average();
            var square = values.Average(value => (value - mean) * (value - mean));
            return new(mean, Math.Max(Narrowest, Math.Sqrt(square)));
        }
    }

    /// <summary>Before a take or the player's own banjo has taught better (assumption, seen on one sampled banjo).</summary>
    public static StopSense Usual { get; } = new(new(-9, 6), new(-1.3, 2.5));

    /// <summary>What speaks for the one against the other, in natural logarithms.</summary>
    public double Of(double decibels)
    {
        // Softer than the usual stopped note is no less stopped, louder than the usual ringing one no less ringing.
        var x = Math.Clamp(decibels, Stopped.Mean, Ringing.Mean);
        return Math.Clamp(Stopped.LogOf(x) - Ringing.LogOf(x), -Most, Most);
    }

    /// <summary>Learns from a take whose strings are thought to be known; null where it teaches nothing.</summary>
    /// <param name="moments">By time.</param>
    /// <param name="strings">The string of each key of each moment.</param>
    internal static StopSense? Learn(IReadOnlyList<Moment> moments, IReadOnlyList<ImmutableArray<int>> strings)
    {
        var (stopped, ringing) = (new List<double>(), new List<double>());
        var index = moments.Select((moment, i) => (moment.Onset, i)).ToDictionary(one => one.Onset, one => one.i);
        for (var i = 0; i < moments.Count; i++)
        {
            foreach (var fall in moments[i].Falls)
            {
                if (!index.TryGetValue(fall.Began, out var began))
                    continue;
                var key = moments[began].Keys.IndexOf(fall.Key);
                if (key < 0 || strings[began][key] is var on && on == 0)
                    continue;
                if (Enumerable.Range(began + 1, i - began - 1).Any(between => strings[between].Contains(on)))
                    continue;
                (strings[i].Contains(on) ? stopped : ringing).Add(fall.Decibels);
            }
        }
        if (stopped.Count < Fewest || ringing.Count < Fewest)
            return null;
        var sense = new StopSense(Normal.Of(stopped), Normal.Of(ringing));
        var spread = Math.Sqrt((Math.Pow(sense.Stopped.Spread, 2) + Math.Pow(sense.Ringing.Spread, 2)) / 2);
        return sense.Ringing.Mean - sense.Stopped.Mean > Apart * spread ? sense : null;
    }
}
