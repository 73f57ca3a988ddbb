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
            css.Append(SvgFonts.Faces(words.Select(word => (word.Face, word.Text))));
        css.Append(".engraving .rule{fill:none;stroke:currentColor}")
            .Append($".engraving .w,.engraving .wi,.engraving .wb{{font-family:{Serif}}}")
            .Append($".engraving .t,.engraving .tb{{font-family:{SansSerif}}}")
            .Append(".engraving .wi{font-style:italic}.engraving .wb,.engraving .tb{font-weight:bold}");
        return css.ToString();
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
