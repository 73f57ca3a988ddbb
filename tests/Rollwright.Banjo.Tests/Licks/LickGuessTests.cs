using Rollwright.Banjo.Licks;
using Rollwright.Banjo.Tunings;

namespace Rollwright.Banjo.Tests.Licks;

public class LickGuessTests
{
    // The bank's own chords, roles and levels were written by people; the guess sees the tab alone.
    [Fact]
    public void The_chord_worked_out_from_the_tab_is_mostly_the_one_that_was_meant()
    {
        var licks = LickTable.All.Where(lick => lick.Length >= 4).ToArray();
        var (first, amongTwo) = (0, 0);
        foreach (var lick in licks)
        {
            var chords = Guess(lick).Chords;
            first += chords[0] == lick.Chord ? 1 : 0;
            amongTwo += chords.Take(2).Contains(lick.Chord) ? 1 : 0;
        }
        first.Should().BeGreaterThan(licks.Length * 85 / 100);
        amongTwo.Should().BeGreaterThan(licks.Length * 93 / 100);
    }

    [Fact]
    public void The_role_worked_out_is_mostly_the_one_that_was_meant()
    {
        var licks = LickTable.All;
        licks.Count(lick => Guess(lick).Role == lick.Role).Should().BeGreaterThan(licks.Length * 85 / 100);
    }

    [Fact]
    public void The_level_worked_out_is_within_one_of_the_one_that_was_meant()
    {
        var licks = LickTable.All;
        licks
            .Count(lick => Math.Abs(Guess(lick).Level - lick.Level) <= 1)
            .Should()
            .BeGreaterThan(licks.Length * 95 / 100);
    }

    [Fact]
    public void What_fits_comes_before_what_does_not()
    {
        var steps = LickTab.Read("3.2T 2.1I 5.0T 1.0M 4.0T 2.1I 5.0T 1.0M");
        var chords = LickGuess.Of(TuningTable.OpenG, steps).Chords;
        $"{chords[0]}".Should().Be("D7");
        var fits = chords
            .Select(chord =>
                ChordFit.Misfits(new("x", LickRole.Fill, TuningTable.OpenG, chord, 1, false, steps)).IsEmpty
            )
            .ToArray();
        fits.Should().BeInDescendingOrder();
    }

    private static LickGuess Guess(Lick lick) =>
        LickGuess.Of(lick.Tuning, lick.Steps, lick.Next, null, lick.IsInThrees);
}
