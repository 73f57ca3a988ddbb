using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using SkiaSharp;

namespace Rollwright.Engraving.Skia;

/// <summary>
/// The fonts of one document with the letters that it uses: the library embeds TrueType fonts whole, and whole ones would be
/// nine tenths of the file.
/// </summary>
internal sealed class CarriedFonts : IDisposable
{
    private readonly Dictionary<int, SKTypeface> typefaces = [];

    public CarriedFonts(IEnumerable<LaidPage> pages)
    {
        var runs = pages
            .SelectMany(page => page.Inks.OfType<Words>())
            .SelectMany(words => Lettering.RunsOf(words.Text).Select(run => (Key: KeyOf(run, words.Face), run.Text)));
        foreach (var font in runs.GroupBy(run => run.Key))
        {
            var characters = font.SelectMany(run => run.Text.EnumerateRunes());
            var bytes = Lettering.FontFile(font.Key == SignsKey ? null : (Face)font.Key, characters);
            using var data = SKData.CreateCopy(bytes);
            typefaces[font.Key] = SKTypeface.FromData(data);
        }
    }

    private const int SignsKey = -1;

    public SKTypeface Of(Lettering.Run run, Face face) => typefaces[KeyOf(run, face)];

    public void Dispose()
    {
        foreach (var typeface in typefaces.Values)
            typeface.Dispose();
    }

    private static int KeyOf(Lettering.Run run, Face face) => run.IsSign ? SignsKey : (int)face;
}
