using Rollwright.Arranging.Lattice;
using Rollwright.Arranging.Reasons;
using Rollwright.Arranging.Solving;
using Rollwright.Arranging.Styles;
using Rollwright.Arranging.Wishes;
using Rollwright.Banjo.Settings;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;
using Rollwright.Music.Keys;
using Rollwright.Music.Metre;
using Rollwright.Music.Pitches;
using Rollwright.Music.Tunes;

namespace Rollwright.Arranging.Tests;

/// <summary>The example that docs/model.md works through by hand.</summary>
public class WorkedExampleTests
{
    private static readonly Fraction Eighth = new(1, 8);

    private static Solver Solve()
    {
        var g = new Key(new(Letter.G));
        Note Of(int step, Letter letter, int octave) => new(Eighth * step, Eighth, new(new(letter), octave));
        var tune = new Tune
        {
            Key = g,
            Time = TimeSignature.Cut,
            Bars =
            [
                new()
                {
                    Length = Eighth * 3,
                    Time = TimeSignature.Cut,
                    Key = g,
                    Notes = [Of(0, Letter.B, 3), Of(1, Letter.D, 4), Of(2, Letter.B, 3)],
                    Chords = [new(Fraction.Zero, new Chord(new(Letter.G)))],
                },
            ],
        };
        var setting = new Setting(TuningTable.OpenG, 0, g, 0);
        var bounds = new LeftBounds(HighestFret: 0, FingersDown: 1, ShapesAStep: 1, Slurs: false, LickLevel: 0);
        var lattice = StepLattice.Build(StepGrid.Lay(tune, setting), setting, bounds, StyleTable.Roll);
        return Solver.Open(lattice, new(3));
    }

    [Fact]
    public void The_best_way_is_the_one_found_by_hand()
    {
        var solver = Solve();
        solver.Best.Total.Should().Be(170);
        string.Join(' ', solver.Best.Path.Select(done => $"{done.Event.Plucks[0].Finger}{done.Event.Plucks[0].String}"))
            .Should()
            .Be("T2 M1 I2");
    }

    [Fact]
    public void Its_terms_and_the_price_of_silence_are_those_of_the_text()
    {
        var solver = Solve();
        var reasons = ReasonFinder.Of(solver);
        reasons.Select(reason => reason.Cost).Should().Equal(20, 90, 60);
        var silence = ReasonFinder.Alternatives(solver, 1, []).Single(other => other.Done.Event.IsSilent);
        // Silence, the note left out, and the thumb on both others.
        silence.Price.Should().Be(900 + 1600 + 20 + 20 - 170);
    }
}
