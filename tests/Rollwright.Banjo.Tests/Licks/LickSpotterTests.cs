using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Licks;

namespace Rollwright.Banjo.Tests.Licks;

/// <summary>Licks found again where they are played: every lick of the bank, written out as a break.</summary>
public class LickSpotterTests
{
    [Fact]
    public void Every_lick_long_enough_is_found_in_what_it_sounds_like()
    {
        var long5 = LickBank.BuiltIn.Licks.Where(lick => lick.Notes.Length >= LickSpotter.FewestNotes).ToList();
        long5.Should().NotBeEmpty();
        foreach (var lick in long5)
            LickSpotter
                .Of(LickBreak.Of(lick), LickBank.BuiltIn)
                .Should()
                .ContainSingle($"{lick.Name} is played and nothing else")
                .Which.Name.Should()
                .Be(lick.Name);
    }

    [Fact]
    public void One_note_otherwise_is_no_lick()
    {
        var lick = LickBank.BuiltIn.Licks.First(lick => lick.Notes.Length >= LickSpotter.FewestNotes);
        var played = LickBreak.Of(lick);
        var bar = played.Bars[0];
        var other = bar.Strokes[0] with { Fret = bar.Strokes[0].Fret + 1 };
        var changed = played with
        {
            Bars = [bar with { Strokes = bar.Strokes.SetItem(0, other) }, .. played.Bars[1..]],
        };
        LickSpotter.Of(changed, LickBank.BuiltIn).Should().NotContain(span => span.Name == lick.Name);
    }
}
