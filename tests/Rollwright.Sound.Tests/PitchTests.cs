using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Sound.Tests;

public class PitchTests
{
    public static TheoryData<int> EveryString => [1, 2, 3, 4, 5];

    [Theory]
    [MemberData(nameof(EveryString))]
    public void Every_fret_of_the_neck_is_in_tune_within_two_cents(int banjoString)
    {
        for (var fret = 0; fret <= Neck.LastFret; fret++)
        {
            if (!Neck.HasFret(banjoString, fret))
                continue;
            var wanted = Ear.Hz(Ear.OpenG.SoundingKeyOf(banjoString, fret));
            var sound = Ear.Note(banjoString, fret, 1);
            var heard = Ear.Fundamental(sound.Interleaved, sound.Rate, wanted);
            Ear.Cents(heard, wanted).Should().BeInRange(-2, 2, $"string {banjoString} fret {fret}");
        }
    }

    [Fact]
    public void Capo_and_other_tunings_sound_as_the_setting_says()
    {
        foreach (var tuning in TuningTable.All)
        {
            var setting = new Setting(tuning, 3, Ear.OpenG.Position, -12);
            for (var banjoString = 1; banjoString <= Neck.Strings; banjoString++)
            {
                var wanted = Ear.Hz(tuning.OpenOf(banjoString) + 3);
                var played = Ear.Of(1, Ear.Plucked(banjoString, 0)) with { Setting = setting };
                var sound = Synth.Render(played, new() { SampleRate = 48_000 });
                Ear.Cents(Ear.Fundamental(sound.Interleaved, 48_000, wanted), wanted)
                    .Should()
                    .BeInRange(-2, 2, $"{tuning.Name} string {banjoString}");
            }
        }
    }

    [Theory]
    [InlineData(SlurKind.HammerOn, 2, 4)]
    [InlineData(SlurKind.PullOff, 3, 2)]
    [InlineData(SlurKind.Slide, 2, 5)]
    [InlineData(SlurKind.Slide, 5, 2)]
    public void A_slur_arrives_in_tune_on_its_time_and_gives_no_new_pluck(SlurKind slur, int from, int to)
    {
        var sound = Synth.Render(Ear.Of(2, Ear.Plucked(3, from), Ear.Slurred(3, to, 1, slur)));
        var wanted = Ear.Hz(Ear.OpenG.SoundingKeyOf(3, to));
        var heard = Ear.Fundamental(sound.Interleaved, sound.Rate, wanted, 1.02);
        Ear.Cents(heard, wanted).Should().BeInRange(-3, 3);
        var levels = Ear.Levels(sound.Interleaved, sound.Rate);
        levels.Skip(100).Take(10).Max().Should().BeLessThan(levels.Take(10).Max() - 6);
    }

    [Fact]
    public void A_choke_bends_the_ringing_note_up_by_a_semitone()
    {
        var sound = Synth.Render(Ear.Of(2, Ear.Plucked(2, 10), Ear.Slurred(2, 10, 1, SlurKind.Choke)));
        var fretted = Ear.Hz(Ear.OpenG.SoundingKeyOf(2, 10));
        Ear.Cents(Ear.Fundamental(sound.Interleaved, sound.Rate, fretted, 0.5), fretted).Should().BeInRange(-2, 2);
        var bent = Ear.Hz(Ear.OpenG.SoundingKeyOf(2, 11));
        Ear.Cents(Ear.Fundamental(sound.Interleaved, sound.Rate, bent, 1.2), bent).Should().BeInRange(-3, 3);
    }
}
