using Rollwright.Engraving.Png;
using Rollwright.TestKit;
using SkiaSharp;

namespace Rollwright.Engraving.Tests;

public class PngTests
{
    [Fact]
    public void A_picture_has_the_size_of_the_page_at_its_dots_per_inch()
    {
        using var picture = SKBitmap.Decode(
            PngWriter.Write(Engraver.Lay(SampleBreaks.Small, PageStyle.Letter), 0, 100)
        );
        (picture.Width, picture.Height).Should().Be((850, 1100));
    }

    [Fact]
    public void Ink_is_black_on_white_paper()
    {
        var layout = Engraver.Lay(SampleBreaks.Small, PageStyle.A4);
        using var picture = SKBitmap.Decode(PngWriter.Write(layout, 0, 72));
        picture.GetPixel(2, 2).Should().Be(SKColors.White);
        var shades = Enumerable
            .Range(0, picture.Width * picture.Height)
            .Select(i => picture.GetPixel(i % picture.Width, i / picture.Width).Red)
            .ToList();
        shades.Min().Should().BeLessThan(20);
        shades.Count(shade => shade < 128).Should().BeInRange(1000, picture.Width * picture.Height / 8);
    }

    [Fact]
    public void A_page_that_is_not_there_is_refused()
    {
        var layout = Engraver.Lay(SampleBreaks.Small, PageStyle.A4);
        var writing = () => PngWriter.Write(layout, 1);
        writing.Should().Throw<ArgumentOutOfRangeException>();
    }
}
