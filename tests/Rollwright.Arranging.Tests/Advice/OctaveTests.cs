using CsCheck;
using Rollwright.Arranging.Advice;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Advice;

public class OctaveTests
{
    // From d' to b'' of the fiddle; sounding an octave lower it begins on string 4.
    private static readonly Tune Wide = AbcReader
        .Read("X:1\nT:Wide\nM:4/4\nL:1/8\nK:G\nD2G2 B2d2|g2b2 g2d2|B2G2 A2F2|G4 G4|\n", "t.abc")
        .Tunes[0];

    [Fact]
    public void The_octave_that_is_asked_for_is_the_one_in_which_the_melody_sounds() =>
        Gen.Select(TuneGenerator.Tunes(4), Gen.OneOf(Gen.Const(-1), Gen.Const(0)))
            .Sample(
                (tune, octave) =>
                {
                    var options = new ArrangeOptions { Octave = octave, SoundingKey = tune.Key };
                    if (SettingAdvice.For(tune, options, Styles.StyleTable.Roll).IsEmpty)
                        return;
                    var made = Arranger.Arrange(tune, options).Break;
                    made.Setting.Octave.Should().Be(octave);
                    // In the tune's own key an octave is twelve semitones, by what the strokes sound.
                    var asked = tune.Played().Select(note => (note.At, note.Pitch.Midi + (12 * octave))).ToHashSet();
                    made.Played()
                        .Where(stroke => stroke.Stroke.IsMelody)
                        .Select(stroke => (stroke.At, made.KeyOf(stroke.Stroke)))
                        .Should()
                        .BeSubsetOf(asked);
                },
                iter: 12
            );

    [Fact]
    public void Advice_ranks_only_ways_in_the_octave_that_is_asked_for()
    {
        Arranger.Advise(Wide).Ways.Select(way => way.Setting.Octave).Distinct().Should().HaveCountGreaterThan(1);
        Arranger.Advise(Wide, new() { Octave = 0 }).Ways.Should().OnlyContain(way => way.Setting.Octave == 0);
    }

    [Fact]
    public void An_octave_that_does_not_lie_on_the_neck_is_refused_with_those_that_do()
    {
        var asking = () => Arranger.Arrange(Wide, new() { Octave = -2 });
        asking
            .Should()
            .Throw<ArrangeException>()
            .WithMessage(
                "*'Wide' do not lie on a banjo 2 octaves below the fiddle*they do an octave below the fiddle, at the fiddle's pitch, an octave above the fiddle: choose such an octave*"
            );
    }

    [Fact]
    public void Where_no_octave_holds_the_tune_the_message_says_so()
    {
        // Three octaves and more: less than half of it lies on the neck wherever it is put.
        var tune = AbcReader.Read("X:1\nT:Ladder\nM:4/4\nL:1/8\nK:G\nG,,,,8|d''''8|\n", "t.abc").Tunes[0];
        var asking = () => Arranger.Arrange(tune, new() { Octave = 0 });
        asking.Should().Throw<ArrangeException>().WithMessage("*nor in any other octave: choose another key*");
    }

    [Fact]
    public void Each_key_has_one_setting_in_each_octave()
    {
        var g = new Key(new(Letter.G));
        var octaves = Enumerable
            .Range(-24, 36)
            .Select(shift => (((shift % 12) + 12) % 12, new Setting(TuningTable.OpenG, 0, g, shift).Octave));
        octaves.Should().OnlyHaveUniqueItems();
        new Setting(TuningTable.OpenG, 0, g, -12).Octave.Should().Be(-1);
        new Setting(TuningTable.OpenG, 0, g, 0).Octave.Should().Be(0);
        new Setting(TuningTable.OpenG, 2, g, -10).Octave.Should().Be(-1, "a tone higher, and an octave lower");
    }

    [Fact]
    public void Names_and_words_say_the_same_octave()
    {
        foreach (var (octave, name) in OctaveWords.All)
            OctaveWords.Find(name).Should().Be(octave);
        OctaveWords.Find("middle").Should().BeNull();
        OctaveWords.Of(-1).Should().Be("an octave below the fiddle");
    }
}
