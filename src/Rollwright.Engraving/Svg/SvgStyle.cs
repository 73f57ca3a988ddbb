using System.Text;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Svg;

/// <summary>The classes and the style sheet of the drawings.</summary>
internal static class SvgStyle
{
    // The first name is the font that was measured; the others look alike where it is missing.
    private const string Serif = "'TeX Gyre Schola','Century Schoolbook','C059',serif";
    private const string SansSerif = "'TeX Gyre Heros','Helvetica','Arial','Liberation Sans',sans-serif";

    private static readonly string[] FaceClasses = ["w", "wi", "wb", "t", "tb"];

    private static readonly string[] KindClasses = [.. Enum.GetNames<InkKind>().Select(Hyphened)];

    public static string ClassOf(Face face) => FaceClasses[(int)face];

    /// <summary>"TabNumber" is "tab-number".</summary>
    public static string ClassOf(InkKind kind) => KindClasses[(int)kind];

    public static string Of(SvgOptions options)
    {
        var css = new StringBuilder();
        if (options.EmbedFonts)
        {
            foreach (var face in Enum.GetValues<Face>())
                AppendFont(css, face);
        }
        css.Append(".engraving .rule{fill:none;stroke:currentColor}")
            .Append($".engraving .w,.engraving .wi,.engraving .wb{{font-family:{Serif}}}")
            .Append($".engraving .t,.engraving .tb{{font-family:{SansSerif}}}")
            .Append(".engraving .wi{font-style:italic}.engraving .wb,.engraving .tb{font-weight:bold}");
        return css.ToString();
    }

    private static void AppendFont(StringBuilder css, Face face)
    {
        var family = face is Face.Plain or Face.PlainBold ? "TeX Gyre Heros" : "TeX Gyre Schola";
        var weight = face is Face.Bold or Face.PlainBold ? "bold" : "normal";
        var slant = face is Face.Italic ? "italic" : "normal";
        css.Append($"@font-face{{font-family:'{family}';font-weight:{weight};font-style:{slant};")
            .Append("src:url(data:font/otf;base64,")
            .Append(Convert.ToBase64String(Lettering.FontFile(face)))
            .Append(")}");
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
