using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;

namespace Rollwright.Sound.Playing;

/// <summary>Puts the passes of a span one after another in seconds.</summary>
/// <param name="start">When the span begins to sound, swung, in whole notes.</param>
internal sealed class TimelineMaker(
    Break played,
    SynthOptions options,
    PlayedSpan span,
    Fraction start,
    double secondsPerWhole,
    double lead,
    double period
)
{
    // Where the next pass begins, its pickup takes the place of what stands there.
    private Fraction EndOf(int pass) =>
        pass == options.TimesThrough - 1 ? span.To : Fraction.Min(span.To, span.From + span.Period);

    public ImmutableArray<TimedStroke> Strokes(Func<Fraction, double> secondsOf)
    {
        var restsAt = Resting();
        var once = played.Played().Where(stroke => stroke.At >= span.From && stroke.At < span.To).ToList();
        var strokes = ImmutableArray.CreateBuilder<TimedStroke>(once.Count * options.TimesThrough);
        for (var pass = 0; pass < options.TimesThrough; pass++)
        {
            foreach (var stroke in once.TakeWhile(stroke => stroke.At < EndOf(pass)))
                strokes.Add(new(lead + (pass * period) + secondsOf(stroke.At), stroke, restsAt(pass, stroke.At)));
        }
        return strokes.ToImmutable();
    }

    public ImmutableArray<TimedBar> Bars()
    {
        var bars = ImmutableArray.CreateBuilder<TimedBar>();
        AddCount(bars);
        for (var pass = 0; pass < options.TimesThrough; pass++)
        {
            var isLastPass = pass == options.TimesThrough - 1;
            foreach (var bar in span.Bars.Where(bar => bar.Start < EndOf(pass)))
            {
                var full = bar.Start - bar.Missing;
                // The last bar goes on until the next pass begins, so that the band plays through a gap.
                var isLast = bar.Place == span.Bars[^1].Place || bar.End >= EndOf(pass);
                var until =
                    !isLast ? bar.End
                    : isLastPass ? span.To
                    : span.From + span.Period;
                bars.Add(
                    new(
                        lead + (pass * period) + ((full - start).ToDouble() * secondsPerWhole),
                        bar.Time,
                        Fraction.Max(bar.Start, span.From) - full,
                        until - full,
                        bar.Place,
                        bar.Bar,
                        pass
                    )
                );
            }
        }
        return bars.ToImmutable();
    }

    // Full bars, then the beats of the next that the pickup leaves.
    private void AddCount(ImmutableArray<TimedBar>.Builder bars)
    {
        if (options.CountIn == 0)
            return;
        var bar = span.Time.Bar;
        for (var count = 0; count < options.CountIn; count++)
            bars.Add(new(count * bar.ToDouble() * secondsPerWhole, span.Time, Fraction.Zero, bar, -1, -1, -1));
        if (span.Entry > Fraction.Zero)
            bars.Add(
                new(
                    options.CountIn * bar.ToDouble() * secondsPerWhole,
                    span.Time,
                    Fraction.Zero,
                    span.Entry,
                    -1,
                    -1,
                    -1
                )
            );
    }

    // Groups of bars are counted through all passes; a pickup belongs to the bar that it leads to.
    private Func<int, Fraction, bool> Resting()
    {
        if (options.RestEvery is not { } every)
            return (_, _) => false;
        var full = span.Bars.Count(bar => bar.Missing == Fraction.Zero);
        return (pass, at) =>
        {
            var before = span.Bars.Count(bar => bar.Missing == Fraction.Zero && bar.Start <= at);
            var current = span.Bars.Last(bar => bar.Start <= at);
            var number = (pass * full) + before - (current.Missing == Fraction.Zero ? 1 : 0);
            return number / every % 2 == 1;
        };
    }
}
