using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Melody;
using Rollwright.Engraving.Drawing;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

/// <summary>A break in phrases, each a row: the tune above, joined to what plays it.</summary>
public class PhraseRowTests
{
    [Fact]
    public void Each_row_is_a_phrase()
    {
        var played = Demo();
        var rows = Engraver.Lay(played, PageStyle.PhraseRows).Bars.GroupBy(place => place.System);
        rows.Select(row => string.Join(' ', row.Select(place => place.Bar)))
            .Should()
            .Equal(
                BreakForm.Of(played).SelectMany(part => part.Phrases).Select(phrase => string.Join(' ', phrase.Bars))
            );
    }

    [Fact]
    public void Every_note_of_the_tune_that_is_played_is_joined_to_its_stroke_and_no_other()
    {
        var played = Demo();
        var fates = Enumerable.Range(0, played.Bars.Length).SelectMany(bar => TuneFates.Of(played, bar)).ToList();
        var inks = Engraver.Lay(played, PageStyle.PhraseRows).Pages[0].Inks;
        var joins = inks.Where(ink => ink.Kind == InkKind.Join).Cast<Rules>().ToList();
        joins.Should().HaveCount(fates.Count(fate => fate.Stroke is not null));
        var numbers = inks.Where(ink => ink.Kind == InkKind.TabNumber).ToList();
        foreach (var end in joins.Select(join => join.Segments[^1].To))
        {
            var met = numbers.Count(number =>
                Math.Abs(((number.Box.Left + number.Box.Right) / 2) - end.X) < 0.01
                && Math.Abs(number.Box.Top - end.Y - 0.8) < 0.01
            );
            met.Should().Be(1);
        }
        fates.Should().Contain(fate => fate.Fate == Fate.LeftOut, "else nothing is shown by this tune");
    }

    [Fact]
    public void A_bar_too_fast_for_comfort_is_marked_and_its_band_is_full()
    {
        var fast = Demo() with { Tempo = new(new(1, 2), 400) };
        var words = Engraver.Lay(fast, PageStyle.PhraseRows).Pages[0].Inks.OfType<Words>();
        words.Should().Contain(ink => ink.Kind == InkKind.TempoBand && ink.Text.StartsWith('!'));
        words = Engraver.Lay(Demo(), PageStyle.PhraseRows).Pages[0].Inks.OfType<Words>();
        words.Should().NotContain(ink => ink.Kind == InkKind.TempoBand && ink.Text.StartsWith('!'));
    }

    private static Break Demo()
    {
        var file = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        var tune = AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0];
        return Arranger.Arrange(tune, new() { Level = 1 }).Break;
    }
}
