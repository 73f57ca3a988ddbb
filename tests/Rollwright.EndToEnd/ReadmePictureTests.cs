using Rollwright.Arranging;
using Rollwright.Engraving;
using Rollwright.Engraving.Png;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;
using SkiaSharp;

namespace Rollwright.EndToEnd;

/// <summary>
/// The picture in the README is what the program makes today. Where it no longer is, the new one is written to
/// <c>out/pictures/</c>: look at it, then put it in the old one's place.
/// </summary>
public class ReadmePictureTests
{
    private const string Name = "break.png";

    [Fact]
    public void The_picture_in_the_readme_is_what_the_program_makes()
    {
        var file = Path.Combine(Places.Root, "data", "demo", "wren-on-the-gatepost.abc");
        var made = Arranger.Arrange(AbcReader.Read(File.ReadAllBytes(file), file).Tunes[0]).Break;
        var firstPart = made with
        {
            Bars = [.. made.Bars.Take(9)],
            Spans = [.. made.Spans.Where(span => span.Bar < 9)],
        };
        var style = PageStyle.Continuous(560) with { Margin = 20 };
        var picture = PngWriter.Write(Engraver.Lay(firstPart, style), dpi: 168);

        var kept = Path.Combine(Places.Root, "docs", "pictures", Name);
        var isSame = File.Exists(kept) && ShareThatDiffers(File.ReadAllBytes(kept), picture) < 0.002;
        if (!isSame)
        {
            var fresh = Directory.CreateDirectory(Path.Combine(Places.Root, "out", "pictures")).FullName;
            File.WriteAllBytes(Path.Combine(fresh, Name), picture);
        }
        isSame.Should().BeTrue($"docs/pictures/{Name} is made by this test; the new one lies in out/pictures/{Name}");
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
