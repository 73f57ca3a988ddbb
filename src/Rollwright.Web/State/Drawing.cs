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

    /// <summary>Points: what a music stand's width holds at arm's length.</summary>
    private const double WideWidth = 760;

    public static Drawing Of(Break played) =>
        new(Draw(played, PageStyle.Continuous(WideWidth), ""), Draw(played, PageStyle.Phone, NarrowPrefix));

    // The page says the title and the setting itself.
    private static string Draw(Break played, PageStyle style, string prefix) =>
        SvgWriter.Write(
            Engraver.Lay(played, style with { ShowHeading = false, Margin = 4 }),
            options: new() { FixedSize = false, Prefix = prefix }
        );
}
