using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;

namespace Rollwright.Sound.Playing;

/// <summary>When each stroke of a break sounds: what the synth plays by, and a cursor follows.</summary>
public sealed record Timeline
{
    /// <summary>Longest sound that is made: half an hour is more than any tune at any practice tempo.</summary>
    public const double LongestSeconds = 1_800;

    /// <summary>In order of time.</summary>
    public required ImmutableArray<TimedStroke> Strokes { get; init; }

    /// <summary>In order of time without a hole, those of the count first.</summary>
    public required ImmutableArray<TimedBar> Bars { get; init; }

    /// <summary>Length of the music in all, the count with it, without the ringing after it.</summary>
    public required double Seconds { get; init; }

    /// <summary>Seconds of the count before the music.</summary>
    public required double Lead { get; init; }

    /// <summary>Seconds from a moment of one pass to the same moment of the next.</summary>
    public required double Period { get; init; }

    /// <summary>Seconds of a whole note.</summary>
    public required double SecondsPerWhole { get; init; }

    /// <exception cref="SoundException">An option is out of its range, the span is empty, or the sound would be too long.</exception>
    public static Timeline Of(Break played, SynthOptions options)
    {
        ArgumentNullException.ThrowIfNull(played);
        ArgumentNullException.ThrowIfNull(options);
        options.Check();
        var tempo = options.Tempo ?? played.Tempo;
        if (!(tempo.PerMinute is > 0 and <= SynthOptions.FastestTempo) || tempo.Unit <= Fraction.Zero)
            throw new SoundException(
                $"A tempo is more than 0 and at most {SynthOptions.FastestTempo} units a minute, not {tempo.PerMinute}."
            );
        var span = PlayedSpan.Of(played, options.From, options.To);
        var whole = tempo.SecondsPerWhole;
        var swung = SwungTime.Of(played);
        // A pickup of one swung step sounds later than it is written: the count waits for it, and the bars follow it.
        var start = swung.At(span.From);
        var lead =
            options.CountIn == 0 ? Fraction.Zero : (span.Time.Bar * options.CountIn) + span.Entry + (start - span.From);
        var once = (swung.At(span.To) - start).ToDouble() * whole;
        // A swung pair that a loop cuts is as long as it is played; whole bars are as long as they are written.
        var period = span.LeavesRoom ? span.Period.ToDouble() * whole : once;
        var leading = lead.ToDouble() * whole;
        var seconds = leading + ((options.TimesThrough - 1) * period) + once;
        if (seconds > LongestSeconds)
            throw new SoundException(
                $"The sound would last {seconds:0} s; at most {LongestSeconds:0} s are made. Play fewer times or faster."
            );
        var line = new TimelineMaker(played, options, span, start, whole, leading, period);
        return new()
        {
            Strokes = line.Strokes(at => (swung.At(at) - start).ToDouble() * whole),
            Bars = line.Bars(),
            Seconds = seconds,
            Lead = leading,
            Period = period,
            SecondsPerWhole = whole,
        };
    }
}
