using CsCheck;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Music.Tests.Tunes;

public class TransposingTests
{
    [Fact]
    public void All_notes_move_by_the_same_number_of_semitones_at_most_a_tritone_and_come_back()
    {
        Gen.Select(TuneGenerator.Tunes(4), Gen.Int[-5, 6])
            .Sample(
                (tune, fifths) =>
                {
                    var moved = tune.To(PitchName.FromFifths(fifths));
                    var steps = tune
                        .Bars.SelectMany(bar => bar.Notes)
                        .Zip(moved.Bars.SelectMany(bar => bar.Notes), (old, now) => now.Pitch.Midi - old.Pitch.Midi)
                        .Distinct()
                        .ToList();
                    steps.Count.Should().BeLessThan(2);
                    if (steps is [var step])
                    {
                        step.Should().BeInRange(-5, 6);
                        ((step - moved.Key.Tonic.PitchClass + tune.Key.Tonic.PitchClass) % 12).Should().Be(0);
                    }
                    moved.Key.Tonic.Should().Be(PitchName.FromFifths(fifths));
                    var back = moved.To(tune.Key.Tonic);
                    back.Bars.SelectMany(bar => bar.Chords).Should().Equal(tune.Bars.SelectMany(bar => bar.Chords));
                    back.Bars.SelectMany(bar => bar.Notes)
                        .Select(note => note.Pitch.Name)
                        .Should()
                        .Equal(tune.Bars.SelectMany(bar => bar.Notes).Select(note => note.Pitch.Name));
                },
                iter: 100
            );
    }
}
