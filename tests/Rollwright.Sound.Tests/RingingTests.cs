using Rollwright.Banjo.Settings;
using Rollwright.Music.Metre;

namespace Rollwright.Sound.Tests;

/// <summary>
/// How notes ring. The figures to meet were measured on one sampled banjo of an open sound font (fluid-soundfont-gm,
/// sounded by fluidsynth without reverb), decay as straight lines through the level; 'within a third' is the aim.
/// </summary>
public class RingingTests
{
    [Theory]
    [InlineData(4, 0, 1.1, 4.0)]
    [InlineData(3, 0, 1.7, 3.8)]
    [InlineData(2, 0, 2.0, 3.6)]
    [InlineData(1, 0, 1.8, 3.3)]
    [InlineData(1, 5, 0.9, 2.5)]
    [InlineData(1, 12, 0.8, 1.5)]
    [InlineData(1, 17, 0.7, 1.3)]
    public void Notes_decay_in_two_slopes_within_a_third_of_the_measured(
        int banjoString,
        int fret,
        double fast,
        double slow
    )
    {
        var sound = Ear.Note(banjoString, fret, 4);
        var first = Ear.DecayTime(sound.Interleaved, sound.Rate, -3, -15);
        var second = Ear.DecayTime(sound.Interleaved, sound.Rate, -20, -40);
        first.Should().BeInRange(fast * 2 / 3, fast * 4 / 3);
        second.Should().BeInRange(slow * 2 / 3, slow * 4 / 3);
        second.Should().BeGreaterThan(first * 1.4, "the string's two polarizations die away apart");
    }

    [Theory]
    [InlineData(4, 0, 870)]
    [InlineData(3, 0, 1_820)]
    [InlineData(2, 0, 2_240)]
    [InlineData(1, 0, 2_560)]
    [InlineData(1, 5, 1_620)]
    [InlineData(1, 12, 4_850)]
    [InlineData(1, 17, 5_580)]
    public void Notes_are_as_bright_as_the_measured_within_a_third(int banjoString, int fret, double centroid)
    {
        var sound = Ear.Note(banjoString, fret);
        Ear.Centroid(sound.Interleaved, sound.Rate).Should().BeInRange(centroid * 2 / 3, centroid * 4 / 3);
    }

    [Fact]
    public void No_fret_is_brighter_or_duller_than_its_neighbours_by_chance()
    {
        // Whatever the fraction of a frame that a string's round trip ends with: half a frame lost the high partials once.
        for (var banjoString = 1; banjoString <= 3; banjoString++)
        {
            var centroids = Enumerable
                .Range(0, 20)
                .Select(fret => Ear.Note(banjoString, fret, 1))
                .Select(sound => Ear.Centroid(sound.Interleaved, sound.Rate))
                .ToList();
            for (var fret = 1; fret < 19; fret++)
            {
                var between = Math.Sqrt(centroids[fret - 1] * centroids[fret + 1]);
                (centroids[fret] / between).Should().BeInRange(0.8, 1.25, $"string {banjoString} fret {fret}");
            }
        }
    }

    [Fact]
    public void A_string_plucked_anew_stops_its_old_note()
    {
        var sound = Synth.Render(Ear.Of(2, Ear.Plucked(2, 5), Ear.Plucked(2, 0, 1)));
        var old = Ear.Hz(Ear.OpenG.SoundingKeyOf(2, 5));
        var before = Ear.Partial(sound.Interleaved.Slice(35_000, 8_000), sound.Rate, old).Magnitude;
        var after = Ear.Partial(sound.Interleaved.Slice(46_000, 8_000), sound.Rate, old).Magnitude;
        after.Should().BeLessThan(before / 10);
    }

    [Fact]
    public void A_finger_needed_elsewhere_leaves_its_string_and_its_note_stops()
    {
        var held = Ear.Of(2, Ear.Plucked(2, 5), Ear.Plucked(1, 7, 1) with { Left = 3 });
        var moved = Ear.Of(2, Ear.Plucked(2, 5), Ear.Plucked(1, 7, 1));
        var old = Ear.Hz(Ear.OpenG.SoundingKeyOf(2, 5));
        double Left(Banjo.Breaks.Break played) =>
            Ear.Partial(Synth.Render(played).Interleaved.Slice(46_000, 8_000), 44_100, old).Magnitude;
        Left(moved).Should().BeLessThan(Left(held) / 5);
    }

    [Fact]
    public void An_open_string_rings_along_with_a_note_that_agrees_with_it()
    {
        // String 1 sounds string 5's pitch and is then stopped elsewhere: what is left of the pitch is string 5's own,
        // for the others are tuned so that no partial of theirs is near.
        double RingsOn(int shortString)
        {
            var tuning = Ear.OpenG.Tuning with { Id = "test", Open = [62, 59, 54, 49, shortString] };
            var setting = new Setting(tuning, 0, Ear.OpenG.Position, -12);
            var played = Ear.Of(2, Ear.Plucked(1, 5), Ear.Plucked(1, 2, 1)) with { Setting = setting };
            var quick = new SynthOptions { Tempo = new(new Fraction(1, 4), 240) };
            return Ear.Partial(
                Synth.Render(played, quick).Interleaved.Slice(13_000, 16_000),
                44_100,
                Ear.Hz(67)
            ).Magnitude;
        }
        RingsOn(67).Should().BeGreaterThan(RingsOn(65) * 2);
    }
}
