using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.Sound.Band;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>What holds for any break, sounded in any way.</summary>
public class TimelineProperties
{
    private static readonly Gen<(Break Played, SynthOptions Options)> Any =
        from played in BreakGenerator.Breaks
        from countIn in Gen.Int[0, 2]
        from times in Gen.Int[1, 3]
        from rest in Gen.Int[0, 3]
        from perMinute in Gen.Int[60, 300]
        from ends in Gen.Select(Gen.Int[0, 8], Gen.Int[1, 8])
        from isPart in Gen.Bool
        let end = played.Order.Aggregate(Fraction.Zero, (sum, bar) => sum + played.Bars[bar].Length)
        let start = end * new Fraction(ends.Item1, 16)
        select (
            played,
            new SynthOptions
            {
                Tempo = new Tempo(new Fraction(1, 4), perMinute),
                CountIn = countIn,
                TimesThrough = times,
                RestEvery = rest == 0 ? null : rest,
                Band = Ensemble.Accompanists,
                From = isPart ? start : Fraction.Zero,
                To = isPart ? start + (end * new Fraction(ends.Item2, 16)) : null,
            }
        );

    [Fact]
    public void Bars_tile_the_time_strokes_follow_each_other_and_passes_are_one_period_apart() =>
        Any.Sample(item =>
        {
            var (played, options) = item;
            var timeline = Timeline.Of(played, options);
            var whole = timeline.SecondsPerWhole;
            var last = 0.0;
            for (var i = 0; i < timeline.Bars.Length; i++)
            {
                var bar = timeline.Bars[i];
                bar.To.Should().BeGreaterThan(bar.From);
                var start = bar.Seconds + (bar.From.ToDouble() * whole);
                // A swung pair that a part of the break cuts moves its ends by less than an eighth.
                start.Should().BeApproximately(last, played.Swing is null ? 1e-6 : whole / 8);
                last = bar.Seconds + (bar.To.ToDouble() * whole);
            }
            last.Should().BeApproximately(timeline.Seconds, played.Swing is null ? 1e-6 : whole / 8);
            timeline.Strokes.Select(stroke => stroke.Seconds).Should().BeInAscendingOrder();
            timeline
                .Strokes.Should()
                .OnlyContain(stroke =>
                    stroke.Seconds >= timeline.Lead - 1e-9 && stroke.Seconds < timeline.Seconds + 1e-9
                );
        });

    [Fact]
    public void Every_player_plays_on_strings_that_there_are_and_in_order_of_time() =>
        Any.Sample(item =>
        {
            var ensemble = Ensemble.Of(item.Played, item.Options);
            foreach (var part in ensemble.Parts)
            {
                part.Acts.Should().OnlyContain(act => act.String >= 1 && act.String <= part.Open.Length);
                part.Acts.Select(act => act.Seconds).Should().BeInAscendingOrder();
                part.Acts.Should()
                    .OnlyContain(act => act.Act != HandAct.Stop || (act.Above >= 0 && act.Above <= 30), part.Name);
            }
        });

    [Fact]
    public void Whatever_is_played_with_the_band_is_finite_and_does_not_clip() =>
        Any.Sample(
            item =>
            {
                var sound = Synth.Render(item.Played, item.Options with { Stereo = true });
                var peak = Audio.Loudness.TruePeak.Of(sound);
                float.IsFinite(peak).Should().BeTrue();
                peak.Should().BeLessThanOrEqualTo((float)Math.Pow(10, -1 / 20.0));
            },
            iter: 15
        );
}
