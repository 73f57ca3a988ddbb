using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Formats.Abc;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests;

public class ArrangerTests
{
    [Fact]
    public void Whatever_the_tune_hands_can_play_the_break() =>
        TuneGenerator.Tunes(4).Sample(tune => Checker.Check(Arranger.Arrange(tune).Break).IsEmpty, iter: 40);

    [Fact]
    public void The_break_has_the_bars_of_the_tune() =>
        TuneGenerator
            .Tunes(4)
            .Sample(
                tune =>
                {
                    var made = Arranger.Arrange(tune).Break;
                    return made.Bars.Select(bar => (bar.Length, bar.Time, bar.Marks))
                            .SequenceEqual(tune.Bars.Select(bar => (bar.Length, bar.Time, bar.Marks)))
                        && made.Bars.All(bar =>
                            bar.Strokes.All(stroke =>
                                stroke.At + stroke.Length <= bar.Length && stroke.Length > Fraction.Zero
                            )
                        );
                },
                iter: 20
            );

    [Fact]
    public void The_same_tune_makes_the_same_break() =>
        TuneGenerator
            .Tunes(4)
            .Sample(tune => Sign(Arranger.Arrange(tune).Break) == Sign(Arranger.Arrange(tune).Break), iter: 10);

    [Fact]
    public void Every_tune_of_the_collection_arranges_with_no_finding()
    {
        foreach (var file in Directory.GetFiles(Places.NeedShared("tunes"), "*.abc"))
        {
            var tune = AbcReader.Read(File.ReadAllBytes(file), Path.GetFileName(file)).Tunes[0];
            Checker.Check(Arranger.Arrange(tune).Break).Should().BeEmpty(Path.GetFileName(file));
        }
    }

    [Fact]
    public void Strokes_marked_as_melody_sound_the_tune_at_its_time() =>
        TuneGenerator
            .Tunes(4)
            .Sample(
                tune =>
                {
                    var made = Arranger.Arrange(tune).Break;
                    var wanted = made.Tune!.Played()
                        .Select(note => (note.At, note.Pitch.Midi + made.Setting.Shift))
                        .ToHashSet();
                    return made.Played()
                        .Where(stroke => stroke.Stroke.IsMelody)
                        .All(stroke => wanted.Contains((stroke.At, made.KeyOf(stroke.Stroke))));
                },
                iter: 20
            );

    [Fact]
    public void A_tune_without_notes_is_refused_with_a_remedy()
    {
        var tune = AbcReader.Read("X:1\nT:Silence\nM:4/4\nL:1/8\nK:G\nG8|\n", "t.abc").Tunes[0];
        var silent = tune with { Bars = [tune.Bars[0] with { Notes = [] }] };
        var arranging = () => Arranger.Arrange(silent);
        arranging.Should().Throw<ArrangeException>().WithMessage("*'Silence' has no notes; write its melody*");
    }

    // Usual ways of the trade (common practice, no source).
    [Theory]
    [InlineData("G", "", "G", 0)]
    [InlineData("A", "", "G", 2)]
    [InlineData("A", "mix", "G", 2)]
    [InlineData("C", "", "C", 0)]
    public void The_usual_position_is_taken_for_a_plain_tune(string tonic, string mode, string position, int capo)
    {
        // A tune of its own key's steps within an octave.
        var text = $"X:1\nT:Plain\nM:4/4\nL:1/4\nK:{tonic}{mode}\n";
        var key = AbcReader.Read(text + "C4|\n", "t.abc").Tunes[0].Key;
        var notes = string.Join(
            '|',
            new[] { 0, 2, 4, 2, 0 }.Select(degree => Letter(key, degree) + "2" + Letter(key, degree + 1) + "2")
        );
        var tune = AbcReader.Read(text + notes + "|\n", "t.abc").Tunes[0];
        var setting = Arranger.Arrange(tune).Break.Setting;
        setting.Position.Tonic.Should().Be(PitchName.Parse(position)!.Value);
        setting.Capo.Should().Be(capo);
    }

    [Fact]
    public void The_first_level_asks_for_no_slur_and_no_fret_above_the_fifth() =>
        TuneGenerator
            .Tunes(4)
            .Sample(
                tune =>
                    Arranger
                        .Arrange(tune, new() { Level = 1 })
                        .Break.Bars.All(bar => bar.Strokes.All(stroke => stroke.Slur is null && stroke.Fret <= 5)),
                iter: 20
            );

    [Fact]
    public void What_is_asked_for_is_done()
    {
        var tune = AbcReader.Read("X:1\nT:Plain\nM:4/4\nL:1/4\nK:D\nd2f2|a2f2|e2d2|d4|\n", "t.abc").Tunes[0];
        var setting = Arranger
            .Arrange(tune, new() { SoundingKey = new Key(new PitchName(Music.Pitches.Letter.A)), Capo = 2 })
            .Break.Setting;
        (setting.Capo, setting.SoundingKey.ToString(), setting.Position.ToString())
            .Should()
            .Be((2, "A major", "G major"));
    }

    private static string Letter(Key key, int degree) =>
        "CDEFGABcdefgab"[((int)key.Tonic.Letter + degree) % 14].ToString();

    private static string Sign(Break made) =>
        string.Join(
            '|',
            made.Bars.Select(bar =>
                string.Join(
                    ' ',
                    bar.Strokes.Select(stroke =>
                        $"{stroke.At}:{stroke.String}.{stroke.Fret}{stroke.Right}{stroke.Slur}{stroke.Left}"
                    )
                )
            )
        );
}
