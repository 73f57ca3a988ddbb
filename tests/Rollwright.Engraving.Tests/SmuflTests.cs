using System.Text.Json;
using Rollwright.Engraving.Measuring;
using Rollwright.TestKit;

namespace Rollwright.Engraving.Tests;

/// <summary>Our measures against the metadata that comes with the font, in SMuFL's format.</summary>
public class SmuflTests
{
    private static readonly Lazy<JsonDocument> Metadata = new(() =>
        JsonDocument.Parse(File.ReadAllText(Path.Combine(Places.Root, "assets/fonts/bravura/bravura_metadata.json")))
    );

    [Fact]
    public void Boxes_of_signs_agree_with_the_metadata()
    {
        var boxes = Metadata.Value.RootElement.GetProperty("glyphBBoxes");
        foreach (
            var (name, glyph) in new (string, Glyph)[]
            {
                ("gClef8vb", Glyph.TrebleClef8Below),
                ("noteheadBlack", Glyph.BlackHead),
                ("noteheadHalf", Glyph.Head(2)),
                ("accidentalSharp", Glyph.Accidental(1)),
                ("accidentalNatural", Glyph.Accidental(0)),
                ("flag8thUp", Glyph.Flag(1, up: true)),
                ("flag16thDown", Glyph.Flag(2, up: false)),
                ("restQuarter", Glyph.Rest(4)),
                ("rest16th", Glyph.Rest(16)),
                ("timeSig6", Glyph.TimeDigit(6)),
                ("metNoteHalfUp", Glyph.TempoNote(2)),
                ("metNoteQuarterUp", Glyph.TempoNote(4)),
                ("timeSigCutCommon", Glyph.CutTime),
            }
        )
        {
            var (ne, sw) = (
                boxes.GetProperty(name).GetProperty("bBoxNE"),
                boxes.GetProperty(name).GetProperty("bBoxSW")
            );
            var box = MusicFont.BoxOf(glyph, 0, 0, 1);
            box.Left.Should().BeApproximately(sw[0].GetDouble(), 0.02, name);
            box.Right.Should().BeApproximately(ne[0].GetDouble(), 0.02, name);
            box.Top.Should().BeApproximately(-ne[1].GetDouble(), 0.02, name);
            box.Bottom.Should().BeApproximately(-sw[1].GetDouble(), 0.02, name);
        }
    }

    [Fact]
    public void Thicknesses_are_those_of_the_font()
    {
        var defaults = Metadata.Value.RootElement.GetProperty("engravingDefaults");
        var sizes = new Sizes(1);
        (sizes.StaffLine / sizes.Space).Should().BeApproximately(Default("staffLineThickness"), 1e-9);
        (sizes.Stem / sizes.Space).Should().BeApproximately(Default("stemThickness"), 1e-9);
        (sizes.Beam / sizes.Space).Should().BeApproximately(Default("beamThickness"), 1e-9);
        (sizes.BeamGap / sizes.Space).Should().BeApproximately(Default("beamSpacing"), 1e-9);
        (sizes.LedgerLine / sizes.Space).Should().BeApproximately(Default("legerLineThickness"), 1e-9);
        (sizes.ThickBarLine / sizes.Space).Should().BeApproximately(Default("thickBarlineThickness"), 1e-9);

        double Default(string name) => defaults.GetProperty(name).GetDouble();
    }
}
