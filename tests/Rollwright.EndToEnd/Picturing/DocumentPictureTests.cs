using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Png;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;

namespace Rollwright.EndToEnd.Picturing;

/// <summary>The pictures of pages in the README and in docs are what the program makes today.</summary>
public class DocumentPictureTests
{
    [Fact]
    public void The_break_of_the_readme_is_what_the_program_makes()
    {
        var made = Arrange("wren-on-the-gatepost");
        var firstPart = made with
        {
            Bars = [.. made.Bars.Take(9)],
            Spans = [.. made.Spans.Where(span => span.Bar < 9)],
        };
        IsWhatIsKept("break.png", firstPart, PageStyle.Continuous(560) with { Margin = 20 }, 168);
    }

    [Fact]
    public void The_page_of_the_handbook_is_what_the_program_makes()
    {
        var style = PageStyle.A4 with
        {
            ShowLeftHand = true,
            ShowPhrases = true,
            ShowNames = true,
            ShowTune = true,
            ShowDiagrams = true,
        };
        IsWhatIsKept("page.png", Arrange("lantern-on-the-millrace"), style, 110);
    }

    [Fact]
    public void The_telephone_page_of_the_handbook_is_what_the_program_makes() =>
        IsWhatIsKept("phone.png", Arrange("wren-on-the-gatepost"), PageStyle.Phone, 96);

    private static Break Arrange(string demo)
    {
        var file = Path.Combine(Places.Root, "data", "demo", demo + ".abc");
        return Arranger.Arrange(AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0]).Break;
    }

    private static void IsWhatIsKept(string name, Break made, PageStyle style, int dpi)
    {
        var picture = PngWriter.Write(Engraver.Lay(made, style), dpi: dpi);
        KeptPicture.Difference($"pictures/{name}", picture).Should().BeEmpty();
    }
}
