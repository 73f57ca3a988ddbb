using CsCheck;
using Rollwright.Banjo.Strokes;
using Rollwright.Music.Metre;
using Rollwright.Sound.Playing;
using Rollwright.TestKit;

namespace Rollwright.Sound.Tests;

public class SynthTests
{
    private static readonly float MinusOneDecibel = (float)Math.Pow(10, -1 / 20.0);

    [Fact]
    public void Strokes_start_within_three_milliseconds_of_their_written_times()
    {
        // Quarter notes a second apart on all strings, so that each attack is plain to see.
        int[] strings = [3, 2, 5, 1, 4, 2, 5, 1];
        var played = Ear.Of(8, strings.Select((banjoString, beat) => Ear.Plucked(banjoString, 0, beat)));
        var sound = Synth.Render(played);
        var onsets = Ear.Onsets(sound.Interleaved, sound.Rate);
        onsets.Should().HaveCount(8);
        for (var beat = 0; beat < 8; beat++)
            onsets[beat].Should().BeApproximately(beat, 0.003);
    }

    [Fact]
    public void The_timeline_takes_repeats_endings_and_tempo_as_written()
    {
        // Pickup of two eighths; part A of four bars twice, the last an ending; part B of two bars twice; half = 80.
        var timeline = Timeline.Of(SampleBreaks.Small, new());
        var whole = 60.0 / 80 * 2;
        timeline.Seconds.Should().BeApproximately(whole * (0.25 + 8 + 4), 1e-9);
        timeline.Strokes[0].Seconds.Should().Be(0);
        timeline.Strokes[2].Seconds.Should().BeApproximately(whole / 4, 1e-9);
        timeline.Strokes.Select(stroke => stroke.Seconds).Should().BeInAscendingOrder();
    }

    [Fact]
    public void A_swung_break_lasts_as_long_and_its_off_beats_come_late()
    {
        var even = Timeline.Of(SampleBreaks.Small, new());
        var swung = Timeline.Of(SampleBreaks.Small with { Swing = Swing.TwoToOne }, new());
        swung.Seconds.Should().BeApproximately(even.Seconds, 1e-9);
        // An eighth is 60 / 80 / 4 s; the second of a pair comes a third of it later, the first stays.
        swung.Strokes[0].Seconds.Should().Be(0);
        swung.Strokes[1].Seconds.Should().BeApproximately(even.Strokes[1].Seconds + (60.0 / 80 / 4 / 3), 1e-9);
        swung.Strokes[2].Seconds.Should().BeApproximately(even.Strokes[2].Seconds, 1e-9);
    }

    [Fact]
    public void A_part_of_the_break_several_times_lasts_as_long_as_it_should()
    {
        var options = new SynthOptions
        {
            From = new Fraction(1, 4),
            To = new Fraction(5, 4),
            TimesThrough = 3,
            Tempo = new(new Fraction(1, 2), 120),
            Tail = 0.5,
        };
        var timeline = Timeline.Of(SampleBreaks.Small, options);
        timeline.Strokes.Should().OnlyContain(stroke => stroke.Played.Bar == 1).And.HaveCount(24);
        Synth.Render(SampleBreaks.Small, options).Duration.TotalSeconds.Should().BeApproximately(3.5, 0.001);
    }

    [Theory]
    [InlineData(44_100, false)]
    [InlineData(48_000, true)]
    public void No_sample_reaches_one_decibel_below_full_scale(int rate, bool stereo)
    {
        var sound = Synth.Render(SampleBreaks.SmallCapo2, new() { SampleRate = rate, Stereo = stereo });
        sound.Peak.Should().BeInRange(MinusOneDecibel * 0.9f, MinusOneDecibel);
        sound.Channels.Should().Be(stereo ? 2 : 1);
    }

    [Fact]
    public void The_same_seed_gives_the_same_sound_and_another_seed_another_hand()
    {
        var one = Synth.Render(SampleBreaks.Small, new() { Seed = 7 });
        var again = Synth.Render(SampleBreaks.Small, new() { Seed = 7 });
        var other = Synth.Render(SampleBreaks.Small, new() { Seed = 8 });
        one.Interleaved.SequenceEqual(again.Interleaved).Should().BeTrue();
        one.Interleaved.SequenceEqual(other.Interleaved).Should().BeFalse();
    }

    [Fact]
    public void The_tune_stands_out_over_the_drone()
    {
        // Against the note before it, for the whole is brought to one level afterwards.
        static double Level(bool melody)
        {
            var played = Ear.Of(2, Ear.Plucked(3, 0), Ear.Plucked(5, 0, 1) with { IsMelody = melody });
            var levels = Ear.Levels(Synth.Render(played).Interleaved, 44_100);
            return levels.Skip(100).Take(20).Max() - levels.Take(20).Max();
        }
        (Level(true) - Level(false)).Should().BeInRange(3, 8);
    }

    [Fact]
    public void Tune_drone_and_fill_are_as_loud_as_asked()
    {
        // String 5, then string 1: as the tune, as drone, as fill; against a full stroke on string 3 before it.
        static double Level(int banjoString, bool melody, Accents accents)
        {
            var played = Ear.Of(2, Ear.Plucked(3, 0), Ear.Plucked(banjoString, 0, 1) with { IsMelody = melody });
            var levels = Ear.Levels(Synth.Render(played, new() { Accents = accents }).Interleaved, 44_100);
            return levels.Skip(100).Take(20).Max() - levels.Take(20).Max();
        }
        var even = new Accents(0, 0, 0);
        (Level(5, false, even) - Level(5, false, even with { Drone = -12 })).Should().BeApproximately(12, 1);
        (Level(1, false, even) - Level(1, false, even with { Fill = -9 })).Should().BeApproximately(9, 1);
        Level(5, true, even with { Drone = -12 }).Should().BeApproximately(Level(5, true, even), 0.5);
    }

    [Fact]
    public void Whatever_is_played_the_strings_die_away()
    {
        // Slurs and stops in any order at any time move the delay lines while they ring; the loops must still lose.
        var stroke =
            from banjoString in Gen.Int[1, 5]
            from fret in Gen.Int[6, 22]
            from kind in Gen.Int[-4, 3]
            select (banjoString, fret, kind);
        stroke
            .Array[1, 40]
            .Sample(
                strokes =>
                {
                    var played = Ear.Of(
                        10,
                        strokes.Select(
                            (s, i) =>
                                Ear.Plucked(s.banjoString, s.fret) with
                                {
                                    At = new Fraction(i, 64),
                                    Right = s.kind < 0 ? RightFinger.T : null,
                                    Slur = s.kind < 0 ? null : (SlurKind)s.kind,
                                }
                        )
                    );
                    var sound = Synth.Render(played);
                    sound.Interleaved.ToArray().Should().OnlyContain(value => float.IsFinite(value));
                    var levels = Ear.Levels(sound.Interleaved, sound.Rate);
                    levels.Skip(900).Max().Should().BeLessThan(levels.Max() - 40);
                },
                iter: 20
            );
    }

    [Fact]
    public void A_break_without_strokes_is_silence()
    {
        var sound = Synth.Render(Ear.Of(4));
        sound.Peak.Should().Be(0);
        sound.Duration.TotalSeconds.Should().BeApproximately(5.5, 0.001);
    }

    [Fact]
    public void Wishes_out_of_range_say_what_the_range_is()
    {
        FluentActions
            .Invoking(() => Synth.Render(SampleBreaks.Small, new() { SampleRate = 22_050 }))
            .Should()
            .Throw<SoundException>()
            .WithMessage("The sample rate is 44100 or 48000.");
        FluentActions
            .Invoking(() => Synth.Render(SampleBreaks.Small, new() { From = new(1), To = new(1) }))
            .Should()
            .Throw<SoundException>()
            .WithMessage("The span to be sounded is empty*");
        FluentActions
            .Invoking(() => Synth.Render(SampleBreaks.Small, new() { Tempo = new(new Fraction(1, 2), 0) }))
            .Should()
            .Throw<SoundException>();
        FluentActions
            .Invoking(() => Synth.Render(SampleBreaks.Small, new() { Tempo = new(new Fraction(1, 2), 0.5) }))
            .Should()
            .Throw<SoundException>()
            .WithMessage("*at most 1800 s*");
    }
}
