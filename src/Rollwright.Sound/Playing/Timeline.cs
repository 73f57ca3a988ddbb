using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Sound.Playing;

/// <summary>When each stroke of a break sounds: what the synth plays by, and a cursor follows.</summary>
/// <param name="Strokes">In order of time.</param>
/// <param name="Seconds">Length of the music in all, without the ringing after it.</param>
public sealed record Timeline(ImmutableArray<TimedStroke> Strokes, double Seconds)
{
    /// <summary>Longest sound that is made: half an hour is more than any tune at any practice tempo.</summary>
    public const double LongestSeconds = 1_800;

    /// <exception cref="ArgumentOutOfRangeException">An option is out of its range.</exception>
    /// <exception cref="ArgumentException">The sound would last more than half an hour.</exception>
    public static Timeline Of(Break played, SynthOptions options)
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(options);
        if (options.TimesThrough is < 1 or > 100)
            throw new ArgumentOutOfRangeException(nameof(options), "Times through are 1 to 100.");
        var tempo = options.Tempo ?? played.Tempo;
        if (!(tempo.PerMinute is > 0 and < 10_000) || tempo.Unit <= Fraction.Zero)
            throw new ArgumentOutOfRangeException(nameof(options), "A tempo is more than 0 units a minute.");
        var end = played.Order.Aggregate(Fraction.Zero, (sum, bar) => sum + played.Bars[bar].Length);
        var from = Fraction.Max(options.From, Fraction.Zero);
        var to = Fraction.Min(options.To ?? end, end);
        var swung = SwungTime.Of(played);
        var start = swung.At(from);
        var length = Math.Max(0, (swung.At(to) - start).ToDouble() * tempo.SecondsPerWhole);
        if (length * options.TimesThrough > LongestSeconds)
            throw new ArgumentException(
                $"The sound would last {length * options.TimesThrough:0} s; at most {LongestSeconds:0} s are made. "
                    + "Play fewer times or faster.",
                nameof(options)
            );
        var once = played.Played().Where(stroke => stroke.At >= from && stroke.At < to).ToImmutableArray();
        var strokes = ImmutableArray.CreateBuilder<TimedStroke>(once.Length * options.TimesThrough);
        for (var pass = 0; pass < options.TimesThrough; pass++)
        {
            foreach (var stroke in once)
                strokes.Add(
                    new((pass * length) + ((swung.At(stroke.At) - start).ToDouble() * tempo.SecondsPerWhole), stroke)
                );
        }
        return new(strokes.MoveToImmutable(), length * options.TimesThrough);
    }
}
