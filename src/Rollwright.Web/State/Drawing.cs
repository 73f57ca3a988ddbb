using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Svg;

namespace Rollwright.Web.State;

/// <summary>A break drawn for the page, for wide and for narrow windows; the style sheet shows the one that fits.</summary>
/// <param name="Wide">Strokes have the ids s-BAR-STROKE.</param>
/// <param name="Narrow">The same ids with <see cref="NarrowPrefix"/> before them.</param>
public sealed record Drawing(DrawnPage Wide, DrawnPage Narrow)
{
    public const string NarrowPrefix = "narrow-";

    // Drawn for a column narrower than the sheet, so that the page enlarges it: to be read at arm's length.
    private static readonly PageStyle WideStyle = PageStyle.Continuous(500);

    public static Drawing Of(Arrangement made)
    {
        ArgumentNullException.ThrowIfNull(made);
        return new(Draw(made, WideStyle, ""), Draw(made, PageStyle.Phone, NarrowPrefix));
    }

    // The page says the title and the setting itself.
    private static DrawnPage Draw(Arrangement made, PageStyle style, string prefix)
    {
        var layout = Engraver.Lay(made.Break, style with { ShowHeading = false, Margin = 4 });
        var svg = SvgWriter.Write(layout, options: new() { FixedSize = false, Prefix = prefix });
        return new(svg, StepPlaces.Of(layout, made.Grid, style.Scale));
    }
}

/// <param name="Svg">The page.</param>
/// <param name="Places">Where its steps are.</param>
public sealed record DrawnPage(string Svg, StepPlaces Places);
