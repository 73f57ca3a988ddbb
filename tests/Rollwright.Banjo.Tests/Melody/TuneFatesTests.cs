using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Melody;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Banjo.Tests.Melody;

public class TuneFatesTests
{
    // String 3 open is G3 (MIDI 55); the setting of the samples puts a tune an octave lower.
    private const int G = 67;

    [Fact]
    public void A_note_at_its_time_and_pitch_is_kept() =>
        Fates("3.0T* 2.0I 5.0T 1.0M", (0, G)).Should().Equal(new NoteFate(Fate.Kept, new StrokeName(0, 0)));

    [Fact]
    public void A_note_a_step_early_or_late_is_moved_and_two_steps_are_too_many()
    {
        Fates("2.0T 3.0I 5.0T 1.0M", (0, G)).Should().Equal(new NoteFate(Fate.Moved, new StrokeName(0, 1)));
        Fates("3.0T 2.0I 5.0T 1.0M", (1, G)).Should().Equal(new NoteFate(Fate.Moved, new StrokeName(0, 0)));
        Fates("2.0T 1.0M 3.0I 5.0T", (0, G)).Should().Equal(new NoteFate(Fate.LeftOut, null));
    }

    [Fact]
    public void A_note_at_its_time_in_another_octave_is_moved() =>
        Fates("5.0T 2.0I 1.0M 2.0I", (0, G)).Should().Equal(new NoteFate(Fate.Moved, new StrokeName(0, 0)));

    [Fact]
    public void A_stroke_plays_one_note_only()
    {
        var fates = Fates("3.0T* 2.0I 5.0T 1.0M", (0, G), (1, G));
        fates[0].Fate.Should().Be(Fate.Kept);
        fates[1].Fate.Should().Be(Fate.LeftOut, "the one G is the first note's own");
    }

    [Fact]
    public void A_break_without_its_tune_has_no_fates() =>
        TuneFates.Of(SampleBreaks.Small with { Tune = null }, 0).Should().BeEmpty();

    private static System.Collections.Immutable.ImmutableArray<NoteFate> Fates(
        string strokes,
        params (int Step, int Midi)[] notes
    )
    {
        var bar = SampleBreaks.Bar(strokes);
        var step = bar.Time.Step;
        var name = new PitchName(Letter.G);
        var tune = new Tune
        {
            Title = "Test",
            Key = new Key(name),
            Time = bar.Time,
            Tempo = SampleBreaks.Small.Tempo,
            Bars =
            [
                new()
                {
                    Length = bar.Length,
                    Time = bar.Time,
                    Key = new Key(name),
                    Notes =
                    [
                        .. notes.Select(note => new Note(step * note.Step, step, Pitch.FromMidi(note.Midi, name))),
                    ],
                },
            ],
        };
        return TuneFates.Of(SampleBreaks.Small with { Bars = [bar], Spans = [], Tune = tune }, 0);
    }
}
