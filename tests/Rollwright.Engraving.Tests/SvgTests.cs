using System.Xml.Linq;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Svg;
using Rollwright.TestKit;
using Snapshooter.Xunit3;

namespace Rollwright.Engraving.Tests;

public class SvgTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    [Fact]
    public void The_small_sample_looks_as_it_did() =>
        Snapshot.Match(SvgWriter.Write(Engraver.Lay(SampleBreaks.Small, PageStyle.A4)));

    [Fact]
    public void Every_page_is_well_formed_and_every_id_is_there_once() =>
        Pages.Claim(
            (_, layout) =>
            {
                for (var page = 0; page < layout.Pages.Length; page++)
                {
                    var root = XElement.Parse(SvgWriter.Write(layout, page));
                    var ids = root.DescendantsAndSelf().Attributes("id").Select(id => id.Value).ToList();
                    ids.Should().OnlyHaveUniqueItems();
                    // Where no tab is, the heads are what is pointed at.
                    var letter = layout.Pages.Any(laid => laid.Inks.Any(ink => ink.Kind == InkKind.TabNumber))
                        ? 's'
                        : 'n';
                    layout
                        .Strokes.Where(place => place.Page == page)
                        .Select(place => $"{letter}-{place.Stroke}")
                        .Except(ids)
                        .Should()
                        .BeEmpty();
                    root.Descendants(Svg + "use")
                        .Select(use => use.Attribute("href")!.Value)
                        .Where(reference => !ids.Contains(reference[1..]))
                        .Should()
                        .BeEmpty();
                }
            }
        );

    [Fact]
    public void Titles_with_signs_of_markup_and_broken_characters_are_written_as_text()
    {
        var title = "Fish & <Chips> \u0001 \ud800";
        var svg = SvgWriter.Write(Engraver.Lay(SampleBreaks.Small with { Title = title }, PageStyle.A4));
        XElement.Parse(svg).Element(Svg + "title")!.Value.Should().Be("Fish & <Chips> \uFFFD \uFFFD");
    }

    [Fact]
    public void Two_drawings_in_one_document_share_no_id()
    {
        var layout = Engraver.Lay(SampleBreaks.Small, PageStyle.Phone);
        var ids = IdsOf(SvgWriter.Write(layout, 0, new() { Prefix = "one-" }));
        var others = IdsOf(SvgWriter.Write(layout, 0, new() { Prefix = "two-" }));
        ids.Intersect(others).Should().BeEmpty();
    }

    [Fact]
    public void Fonts_travel_inside_where_they_are_asked_for()
    {
        var layout = Engraver.Lay(SampleBreaks.Small, PageStyle.Phone);
        SvgWriter.Write(layout).Should().NotContain("@font-face");
        SvgWriter.Write(layout, 0, new() { EmbedFonts = true }).Should().Contain("src:url(data:font/ttf;base64,");
    }

    [Fact]
    public void Xmllint_finds_the_file_well_formed()
    {
        var path = Path.GetTempFileName();
        try
        {
            File.WriteAllText(path, SvgWriter.Write(Engraver.Lay(SampleBreaks.SmallCapo2, PageStyle.A4)));
            Outside.Run("xmllint", "--noout", "--nonet", path).Code.Should().Be(0);
        }
        finally
        {
            File.Delete(path);
        }
    }

    private static List<string> IdsOf(string svg) =>
        [.. XElement.Parse(svg).DescendantsAndSelf().Attributes("id").Select(id => id.Value)];
}
