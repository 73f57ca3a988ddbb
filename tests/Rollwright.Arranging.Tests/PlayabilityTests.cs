using CsCheck;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Keys;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests;

/// <summary>Whatever is asked for, the break is one that hands can play; the judge knows nothing of the lattice.</summary>
public class PlayabilityTests
{
    private static readonly Gen<ArrangeOptions> Options = Gen.Select(
        Gen.Int[0, StyleTable.Solo.Count() - 1],
        Gen.Int[LevelTable.Lowest, LevelTable.Highest],
        Gen.Int[0, TuningTable.All.Length - 1],
        Gen.Int[0, 7],
        (style, level, tuning, capo) =>
            new ArrangeOptions
            {
                Style = StyleTable.Solo.ElementAt(style),
                Level = level,
                Tuning = TuningTable.All[tuning],
                Capo = capo,
            }
    );

    [Fact]
    public void Every_break_of_every_style_level_tuning_and_capo_can_be_played()
    {
        int made = 0,
            refused = 0;
        Gen.Select(TuneGenerator.Tunes(4), Options)
            .Sample(
                (tune, options) =>
                {
                    try
                    {
                        var arrangement = Arranger.Arrange(tune, options);
                        arrangement.Solver.Best.IsPossible.Should().BeTrue();
                        var setting = arrangement.Break.Setting;
                        setting.Tuning.Should().Be(options.Tuning);
                        setting.Capo.Should().Be(options.Capo);
                        Checker.Check(arrangement.Break).Should().BeEmpty();
                        Interlocked.Increment(ref made);
                    }
                    catch (ArrangeException)
                    {
                        // A key that does not lie in this tuning and capo.
                        Interlocked.Increment(ref refused);
                    }
                },
                iter: 120
            );
        made.Should().BeGreaterThan(refused);
    }

    [Fact]
    public void A_tune_and_its_capo_moved_up_together_are_played_by_the_same_hands() =>
        Gen.Select(TuneGenerator.Tunes(4), Options, Gen.Int[1, 3])
            .Where((_, options, up) => options.Capo + up <= 5)
            .Sample(
                (tune, options, up) =>
                {
                    var plain = Make(tune, options);
                    var moved = Make(Moved(tune, up), options with { Capo = options.Capo + up });
                    (moved is null).Should().Be(plain is null);
                    if (plain is null || moved is null)
                        return;
                    moved.Setting.Shift.Should().Be(plain.Setting.Shift);
                    Hands(moved).Should().Equal(Hands(plain));
                    moved
                        .Played()
                        .Select(stroke => moved.KeyOf(stroke.Stroke))
                        .Should()
                        .Equal(plain.Played().Select(stroke => plain.KeyOf(stroke.Stroke) + up));
                },
                iter: 40
            );

    private static Break? Make(Tune tune, ArrangeOptions options)
    {
        try
        {
            return Arranger.Arrange(tune, options).Break;
        }
        catch (ArrangeException)
        {
            return null;
        }
    }

    private static IEnumerable<string> Hands(Break made) =>
        made.Bars.SelectMany(
            (bar, i) =>
                bar.Strokes.Select(stroke =>
                    $"{i}:{stroke.At} {stroke.String}.{stroke.Fret} {stroke.Right}{stroke.Slur}{stroke.Left}"
                )
        );

    private static Tune Moved(Tune tune, int up)
    {
        var key = tune.Key.Transpose(up);
        var fifths = key.Tonic.Fifths - tune.Key.Tonic.Fifths;
        return tune with
        {
            Key = key,
            Bars =
            [
                .. tune.Bars.Select(bar =>
                    bar with
                    {
                        Key = key,
                        Notes = [.. bar.Notes.Select(note => note with { Pitch = Up(note.Pitch, key, up) })],
                        Chords = [.. bar.Chords.Select(at => at with { Chord = at.Chord.TransposeFifths(fifths) })],
                    }
                ),
            ],
        };
    }

    private static Pitch Up(Pitch pitch, Key key, int up) =>
        Pitch.FromMidi(pitch.Midi + up, key.Spell((pitch.Midi + up) % 12));
}
