using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Png;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;
using SkiaSharp;

namespace Rollwright.EndToEnd;

/// <summary>
/// The pictures in the README and the handbook are what the program makes today. Where one no longer is, the new one is
/// written to <c>out/pictures/</c>: look at it, then put it in the old one's place.
/// </summary>
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
        var kept = Path.Combine(Places.Root, "docs", "pictures", name);
        var isSame = File.Exists(kept) && ShareThatDiffers(File.ReadAllBytes(kept), picture) < 0.002;
        if (!isSame)
        {
            var fresh = Places.Pictures;
            File.WriteAllBytes(Path.Combine(fresh, name), picture);
        }
        isSame.Should().BeTrue($"docs/pictures/{name} is made by this test; the new one lies in out/pictures/{name}");
    }

    // Edges are smoothed a little differently on other processors; a moved note changes more than this.
    private static double ShareThatDiffers(byte[] kept, byte[] made)
    {
        using var one = SKBitmap.Decode(kept);
        using var other = SKBitmap.Decode(made);
        if (one.Width != other.Width || one.Height != other.Height)
            return 1;
        var different = one.Pixels.Zip(other.Pixels).Count(pair => Math.Abs(pair.First.Green - pair.Second.Green) > 48);
        return (double)different / one.Pixels.Length;
    }
}
