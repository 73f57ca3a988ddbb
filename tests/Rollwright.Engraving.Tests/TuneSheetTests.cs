using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Svg;
using Rollwright.Formats.Abc;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

/// <summary>A tune alone, as fiddlers read it.</summary>
public class TuneSheetTests
{
    private const string Head = "X:1\nT:Test\nM:4/4\nL:1/8\nK:D\n";

    [Fact]
    public void Nothing_collides_on_the_sheet_of_any_tune_given()
    {
        foreach (var file in Directory.GetFiles(Places.NeedShared("tunes"), "*.abc"))
        {
            foreach (var style in new[] { PageStyle.A4, PageStyle.Phone })
            {
                var layout = Engraver.Lay(Read(File.ReadAllText(file)), style);
                var faults = Collisions
                    .OfSigns(layout)
                    .Concat(Collisions.OfLines(layout))
                    .Concat(Collisions.OfPaper(layout));
                faults.FirstOrDefault().Should().BeNull(Path.GetFileName(file));
            }
        }
    }

    [Fact]
    public void Every_note_has_its_head_and_tied_ones_a_tie_instead_of_a_name()
    {
        var layout = Engraver.Lay(Read(Head + "d4 f4-|f4 a4|"), PageStyle.A4);
        var inks = layout.Pages[0].Inks;
        inks.Count(ink => ink.Kind == InkKind.NoteHead).Should().Be(4);
        inks.Count(ink => ink.Kind == InkKind.NoteHead && ink.Stroke is not null).Should().Be(3);
        inks.Count(ink => ink.Kind == InkKind.Tie).Should().Be(1);
    }

    [Fact]
    public void It_is_written_at_pitch_under_a_plain_treble_clef()
    {
        var inks = Engraver.Lay(Read(Head + "B8|"), PageStyle.A4).Pages[0].Inks;
        // SMuFL 1.4: U+E050 is the G clef; B above middle C stands on the middle line.
        inks.OfType<Sign>()
            .Should()
            .ContainSingle(sign => sign.Kind == InkKind.Clef && sign.Glyph.CodePoint == 0xE050);
        var lines = inks.OfType<Rules>()
            .Where(rules => rules.Kind == InkKind.StaffLine)
            .SelectMany(rules => rules.Segments);
        var middle = lines.Select(line => line.From.Y).Distinct().Order().ElementAt(2);
        inks.OfType<Sign>().Single(sign => sign.Kind == InkKind.NoteHead).Y.Should().BeApproximately(middle, 0.01);
    }

    [Fact]
    public void A_tune_without_tempo_gets_none_on_paper()
    {
        var svg = SvgWriter.Write(Engraver.Lay(Read(Head + "B8|"), PageStyle.A4));
        svg.Should().Contain("Key: D major.").And.NotContain("= 120");
    }

    private static Tune Read(string abc) => AbcReader.Read(abc, "test.abc").Tunes[0];
}
