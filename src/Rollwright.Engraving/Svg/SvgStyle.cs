using System.Text;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Svg;

/// <summary>The classes and the style sheet of the drawings.</summary>
internal static class SvgStyle
{
    // The first name is the font that was measured; the others look alike where it is missing.
    private const string Serif =
        "'Rollwright Serif','TeX Gyre Schola','Century Schoolbook','C059','Rollwright Signs',serif";
    private const string SansSerif =
        "'Rollwright Sans','TeX Gyre Heros','Helvetica','Arial','Liberation Sans','Rollwright Signs',sans-serif";

    private static readonly string[] FaceClasses = ["w", "wi", "wb", "t", "tb"];

    private static readonly string[] KindClasses = [.. Enum.GetNames<InkKind>().Select(Hyphened)];

    public static string ClassOf(Face face) => FaceClasses[(int)face];

    /// <summary>"TabNumber" is "tab-number".</summary>
    public static string ClassOf(InkKind kind) => KindClasses[(int)kind];

    /// <param name="options">Whether fonts travel inside.</param>
    /// <param name="words">All words of the page: a font holds the letters that they need.</param>
    public static string Of(SvgOptions options, IEnumerable<Words> words)
    {
        var css = new StringBuilder();
        if (options.EmbedFonts)
            AppendFonts(css, words);
        css.Append(".engraving .rule{fill:none;stroke:currentColor}")
            .Append($".engraving .w,.engraving .wi,.engraving .wb{{font-family:{Serif}}}")
            .Append($".engraving .t,.engraving .tb{{font-family:{SansSerif}}}")
            .Append(".engraving .wi{font-style:italic}.engraving .wb,.engraving .tb{font-weight:bold}");
        return css.ToString();
    }

    private static void AppendFonts(StringBuilder css, IEnumerable<Words> words)
    {
        var runs = words.SelectMany(word =>
            Lettering.RunsOf(word.Text).Select(run => (Face: run.IsSign ? (Face?)null : word.Face, run.Text))
        );
        foreach (var font in runs.GroupBy(run => run.Face).OrderBy(font => font.Key))
        {
            var family = font.Key switch
            {
                null => "Rollwright Signs",
                Face.Plain or Face.PlainBold => "Rollwright Sans",
                _ => "Rollwright Serif",
            };
            var weight = font.Key is Face.Bold or Face.PlainBold ? "bold" : "normal";
            var slant = font.Key is Face.Italic ? "italic" : "normal";
            var characters = font.SelectMany(run => run.Text.EnumerateRunes());
            css.Append($"@font-face{{font-family:'{family}';font-weight:{weight};font-style:{slant};")
                .Append("src:url(data:font/ttf;base64,")
                .Append(Convert.ToBase64String(Lettering.FontFile(font.Key, characters)))
                .Append(")}");
        }
    }

    private static string Hyphened(string name)
    {
        var text = new StringBuilder();
        foreach (var letter in name)
        {
            if (char.IsUpper(letter) && text.Length > 0)
                text.Append('-');
            text.Append(char.ToLowerInvariant(letter));
        }
        return text.ToString();
    }
}
