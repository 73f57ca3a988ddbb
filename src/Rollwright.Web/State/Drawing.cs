using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Svg;

namespace Rollwright.Web.State;

/// <summary>A break drawn for the page, for wide and for narrow windows; the style sheet shows the one that fits.</summary>
/// <param name="Wide">SVG; strokes have the ids s-BAR-STROKE.</param>
/// <param name="Narrow">SVG; the same ids with <see cref="NarrowPrefix"/> before them.</param>
public sealed record Drawing(string Wide, string Narrow)
{
    public const string NarrowPrefix = "narrow-";

    // Drawn for a column narrower than the sheet, so that the page enlarges it: to be read at arm's length.
    private static readonly PageStyle WideStyle = PageStyle.Continuous(500);

    private static readonly PageStyle NarrowStyle = PageStyle.Phone with { Scale = 1.35 };

    public static Drawing Of(Break played) => new(Draw(played, WideStyle, ""), Draw(played, NarrowStyle, NarrowPrefix));

    // The page says the title and the setting itself.
    private static string Draw(Break played, PageStyle style, string prefix) =>
        SvgWriter.Write(
            Engraver.Lay(played, style with { ShowHeading = false, Margin = 4 }),
            options: new() { FixedSize = false, Prefix = prefix }
        );
}
