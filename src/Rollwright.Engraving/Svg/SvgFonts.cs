using System.Text;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Svg;

/// <summary>The text fonts of drawings as CSS, with the letters that are needed inside.</summary>
public static class SvgFonts
{
    /// <summary>The family of the serif, for a page that sets its own words in it.</summary>
    public const string SerifFamily = "Rollwright Serif";

    private static readonly Face[] ProseFaces = [Face.Roman, Face.Italic, Face.Bold];

    /// <summary>Fonts for a document with several drawings, none of which carries its own.</summary>
    /// <param name="layouts">What is drawn.</param>
    /// <param name="prose">What the document says besides in the serif, regular, italic or bold.</param>
    public static string StyleSheet(IEnumerable<Layout> layouts, string prose) =>
        Faces(
            layouts
                .SelectMany(layout => layout.Pages)
                .SelectMany(page => page.Inks.OfType<Words>())
                .Select(word => (word.Face, word.Text))
                .Concat(ProseFaces.Select(face => (face, prose)))
        );

    internal static string Faces(IEnumerable<(Face Face, string Text)> words)
    {
        var css = new StringBuilder();
        var runs = words.SelectMany(word =>
            Lettering.RunsOf(word.Text).Select(run => (Face: run.IsSign ? (Face?)null : word.Face, run.Text))
        );
        foreach (var font in runs.GroupBy(run => run.Face).OrderBy(font => font.Key))
        {
            var family = font.Key switch
            {
                null => "Rollwright Signs",
                Face.Plain or Face.PlainBold => "Rollwright Sans",
                _ => SerifFamily,
            };
            var weight = font.Key is Face.Bold or Face.PlainBold ? "bold" : "normal";
            var slant = font.Key is Face.Italic ? "italic" : "normal";
            var characters = font.SelectMany(run => run.Text.EnumerateRunes()).Distinct();
            css.Append($"@font-face{{font-family:'{family}';font-weight:{weight};font-style:{slant};")
                .Append("src:url(data:font/ttf;base64,")
                .Append(Convert.ToBase64String(Lettering.FontFile(font.Key, characters)))
                .Append(")}");
        }
        return css.ToString();
    }
}
