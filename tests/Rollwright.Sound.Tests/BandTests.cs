using Rollwright.Banjo.Breaks;
using Rollwright.Music.Chords;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;
using Rollwright.Sound.Band;
using Rollwright.Sound.Instruments;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

/// <summary>What the band plays and when; common practice, no source.</summary>
public class BandTests
{
    private static readonly SynthOptions All = new() { Band = Ensemble.Accompanists };

    [Theory]
    [InlineData("4/4", "bass", "0 1/2")]
    [InlineData("4/4", "guitar", "1/4 3/4")]
    [InlineData("4/4", "chop", "1/4 3/4")]
    [InlineData("4/4", "click", "0 1/4 1/2 3/4")]
    [InlineData("2/2", "bass", "0 1/2")]
    [InlineData("2/2", "guitar", "1/4 3/4")]
    [InlineData("2/2", "click", "0 1/2")]
    [InlineData("2/4", "bass", "0 1/4")]
    [InlineData("2/4", "guitar", "1/8 3/8")]
    [InlineData("3/4", "bass", "0")]
    [InlineData("3/4", "guitar", "1/4 1/2")]
    [InlineData("6/8", "bass", "0 3/8")]
    [InlineData("6/8", "guitar", "1/4 5/8")]
    [InlineData("6/8", "click", "0 3/8")]
    [InlineData("5/4", "bass", "0")]
    [InlineData("5/4", "chop", "1/4 1/2 3/4 1")]
    [InlineData("5/4", "click", "0 1/4 1/2 3/4 1")]
    public void Bass_is_on_the_beat_and_strums_are_off_it_as_the_metre_wants(string metre, string part, string times)
    {
        var numbers = metre.Split('/').Select(int.Parse).ToArray();
        var time = new TimeSignature(numbers[0], numbers[1]);
        var played = SampleBreaks.Small with
        {
            Time = time,
            Bars =
            [
                new BreakBar
                {
                    Length = time.Bar,
                    Time = time,
                    Chords = [new(Fraction.Zero, Chord.Parse("G")!.Value)],
                },
            ],
        };
        var ensemble = Ensemble.Of(played, All);
        var whole = ensemble.Timeline.SecondsPerWhole;
        var struck = Struck(ensemble, part).Select(act => act.Seconds / whole).ToList();
        var wanted = times.Split(' ').Select(text => text.Split('/').Select(double.Parse).ToArray()).ToList();
        // The strings of a strum follow each other within 60 ms: the first of each counts.
        var firsts = struck.Where((at, i) => i == 0 || at - struck[i - 1] > 0.06 / whole).ToList();
        firsts.Should().HaveCount(wanted.Count);
        for (var i = 0; i < wanted.Count; i++)
            firsts[i]
                .Should()
                .BeApproximately(wanted[i].Length == 2 ? wanted[i][0] / wanted[i][1] : wanted[i][0], 1e-9);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    public void The_bass_takes_root_and_fifth_by_turns_in_the_sounding_key_and_new_chords_from_their_root(int capo)
    {
        var played = SampleBreaks.Small with
        {
            Setting = SampleBreaks.Small.Setting with { Capo = capo },
            Bars =
            [
                SampleBreaks.Bar("3.0T - - - - - - -", chords: "G"),
                SampleBreaks.Bar("3.0T - - - - - - -"),
                SampleBreaks.Bar("3.0T - - - - - - -", chords: "D7 C@4"),
                SampleBreaks.Bar("3.0T - - - - - - -", chords: "D/F#"),
            ],
        };
        var ensemble = Ensemble.Of(played, All);
        var classes = Keys(ensemble, "bass").Select(key => ((key - capo) % 12 + 12) % 12);
        // G D, G D, D C, F# then the root of a chord whose bass is named.
        classes.Should().Equal(7, 2, 7, 2, 2, 0, 6, 2);
        Keys(ensemble, "bass").Should().OnlyContain(key => key >= 28 && key <= 28 + 24);
    }

    [Fact]
    public void Every_strum_holds_only_notes_of_the_chord_that_sounds_and_its_root()
    {
        foreach (var name in new[] { "G", "C", "D7", "Em", "A7", "F", "Bb", "F#m", "B7", "Edim", "Asus4", "E5" })
        {
            var chord = Chord.Parse(name)!.Value;
            foreach (var part in new[] { "guitar", "chop" })
            {
                var voice = InstrumentTable.Of(part);
                var keys = Voicing
                    .Strum(voice, chord, 3)
                    .Select((fret, i) => voice.Strings[i].Open + fret - 3)
                    .OfType<int>()
                    .ToList();
                keys.Should().HaveCountGreaterThanOrEqualTo(3, name).And.OnlyContain(key => chord.Contains(key), name);
                keys.Should().Contain(key => key % 12 == chord.Root.PitchClass, name);
            }
        }
    }

    [Fact]
    public void Without_chords_only_the_click_plays()
    {
        var played = SampleBreaks.Small with { Bars = [SampleBreaks.Bar("3.0T 2.0I 1.0M 5.0T 3.0T 2.0I 1.0M 5.0T")] };
        var ensemble = Ensemble.Of(played, All);
        ensemble.Parts.Where(part => part.Acts.Length > 0).Select(part => part.Name).Should().Equal("banjo", "click");
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void A_count_in_is_full_bars_and_leaves_the_pickup_its_place(int bars)
    {
        // 2/2, half = 80: a bar lasts 1.5 s; the pickup is a quarter, so that its bar is counted for three.
        var ensemble = Ensemble.Of(SampleBreaks.Small, new() { CountIn = bars });
        var timeline = ensemble.Timeline;
        timeline.Lead.Should().BeApproximately((bars * 1.5) + (1.5 * 3 / 4), 1e-9);
        timeline.Strokes[0].Seconds.Should().BeApproximately(timeline.Lead, 1e-9);
        var clicks = Struck(ensemble, "click").Select(act => act.Seconds).ToList();
        clicks.Should().HaveCount((bars * 2) + 2);
        for (var i = 0; i < clicks.Count; i++)
            clicks[i].Should().BeApproximately(i * 0.75, 1e-9);
        // The first full bar comes after whole bars of the count.
        timeline.Bars.First(bar => bar.Place == 1).Seconds.Should().BeApproximately((bars + 1) * 1.5, 1e-9);
    }

    [Fact]
    public void The_beat_goes_on_from_pass_to_pass_wherever_the_pickup_is()
    {
        // Part B once, for a repeat of a short bar would break the beat within the tune itself.
        var fullLast = SampleBreaks.Small with
        {
            Bars =
            [
                .. SampleBreaks.Small.Bars[..6],
                .. SampleBreaks.Small.Bars[6..].Select(bar => bar with { Marks = BarMarks.None }),
            ],
        };
        var shortLast = fullLast with
        {
            Bars = fullLast.Bars.SetItem(7, SampleBreaks.Bar("3.0T* 2.0I 5.0T 1.0M 3.0T* -")),
        };
        var noPickup = fullLast with { Bars = fullLast.Bars.RemoveAt(0) };
        foreach (var played in new[] { shortLast, fullLast, noPickup })
        {
            var timeline = Timeline.Of(played, new() { TimesThrough = 3, CountIn = 1 });
            var bar = timeline.SecondsPerWhole;
            foreach (var full in timeline.Bars)
                (full.Seconds / bar).Should().BeApproximately(Math.Round(full.Seconds / bar), 1e-9);
            (timeline.Period / bar).Should().BeApproximately(Math.Round(timeline.Period / bar), 1e-9);
            // Bars tile the time: what the band plays has neither hole nor overlap.
            for (var i = 1; i < timeline.Bars.Length; i++)
            {
                var before = timeline.Bars[i - 1];
                var next = timeline.Bars[i];
                (before.Seconds + (before.To.ToDouble() * bar))
                    .Should()
                    .BeApproximately(next.Seconds + (next.From.ToDouble() * bar), 1e-9);
            }
            timeline.Strokes.Select(stroke => stroke.Seconds).Should().BeInAscendingOrder();
        }
    }

    [Fact]
    public void A_loop_of_whole_bars_comes_again_after_its_own_length()
    {
        var options = new SynthOptions
        {
            From = new Fraction(1, 4),
            To = new Fraction(9, 4),
            TimesThrough = 2,
        };
        var timeline = Timeline.Of(SampleBreaks.Small, options);
        timeline.Period.Should().BeApproximately(2 * 1.5, 1e-9);
        timeline.Seconds.Should().BeApproximately(4 * 1.5, 1e-9);
    }

    [Fact]
    public void The_banjo_rests_in_alternate_groups_of_bars_while_the_band_goes_on()
    {
        var options = new SynthOptions { Band = ["bass"], RestEvery = 2 };
        var ensemble = Ensemble.Of(SampleBreaks.Small, options);
        var timeline = ensemble.Timeline;
        // The pickup belongs to bar 1: bars 1 and 2 play, 3 and 4 rest, and so on in order of play.
        foreach (var stroke in timeline.Strokes)
        {
            var bar = (int)Math.Floor((stroke.Seconds - (0.25 * 1.5) + 1e-6) / 1.5);
            // Where the part comes again, the last quarter of its last bar is the pickup of the next.
            if (stroke.Played.Bar != 0)
                stroke.IsResting.Should().Be(bar / 2 % 2 == 1, $"{stroke.Seconds}");
        }
        timeline.Strokes[0].IsResting.Should().BeFalse();
        var banjo = Struck(ensemble, "banjo").Select(act => act.Seconds).ToList();
        var bass = Struck(ensemble, "bass").Select(act => act.Seconds).ToList();
        banjo.Should().NotContain(at => at >= 0.375 + 3 - 1e-6 && at < 0.375 + 6 - 0.38);
        bass.Should().Contain(at => at >= 0.375 + 3 && at < 0.375 + 6);
    }

    [Fact]
    public void Stems_are_the_mix_taken_apart()
    {
        var options = All with { Stereo = true, CountIn = 1, TimesThrough = 2 };
        var mix = Synth.Render(SampleBreaks.Small, options).Interleaved;
        var stems = Synth.Stems(SampleBreaks.Small, options);
        stems.Select(stem => stem.Name).Should().Equal("banjo", "bass", "guitar", "chop", "click");
        var largest = 0f;
        for (var i = 0; i < mix.Length; i++)
        {
            var sum = 0f;
            foreach (var stem in stems)
                sum += stem.Sound.Interleaved[i];
            largest = Math.Max(largest, Math.Abs(sum - mix[i]));
        }
        largest.Should().BeLessThan(1e-5f);
    }

    private static IEnumerable<HandEvent> Struck(Ensemble ensemble, string part) =>
        ensemble.Parts.First(item => item.Name == part).Acts.Where(act => act.Act == HandAct.Pluck);

    private static List<int> Keys(Ensemble ensemble, string part)
    {
        var own = ensemble.Parts.First(item => item.Name == part);
        var above = new double[own.Open.Length + 1];
        var keys = new List<int>();
        foreach (var act in own.Acts)
        {
            if (act.Act == HandAct.Stop)
                above[act.String] = act.Above;
            if (act.Act == HandAct.Pluck)
                keys.Add(own.Open[act.String - 1].Key + (int)above[act.String]);
        }
        return keys;
    }
}
