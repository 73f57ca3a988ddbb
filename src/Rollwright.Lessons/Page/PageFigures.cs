using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Figures;
using Rollwright.Engraving.Svg;

namespace Rollwright.Lessons.Page;

/// <summary>
/// The drawings of one page, each for wide and for narrow windows: the first carries the fonts for all, and no two share an id.
/// </summary>
internal sealed class PageFigures
{
    private static readonly PageStyle Wide = PageStyle.Continuous(500) with { ShowHeading = false, Margin = 4 };
    private static readonly PageStyle Narrow = PageStyle.Phone with { Scale = 1.35, ShowHeading = false, Margin = 4 };

    private int drawn;

    /// <summary>The whole break, notation above tab.</summary>
    public string Whole(Break played) => Both(Engraver.Lay(played, Wide), Engraver.Lay(played, Narrow));

    /// <summary>The tab of something as long as the break: a page has to hold several.</summary>
    public string TabOf(Break played) => Both(Engraver.Lay(played, TabAlone(Wide)), null);

    /// <summary>A bar or two that stand by themselves.</summary>
    public string Small(Break played) =>
        Both(BarsFigure.Lay(played, 0, played.Bars.Length - 1, TabAlone(Wide), new(Wide.Width)), null);

    /// <summary>Bars of a break; their strokes have the names that they have in the whole.</summary>
    /// <param name="played">The break.</param>
    /// <param name="bars">Indices of bars that follow each other.</param>
    /// <param name="isFull">With notation; otherwise the tab alone.</param>
    public string Bars(Break played, ImmutableArray<int> bars, bool isFull)
    {
        var wide = BarsFigure.Lay(played, bars[0], bars[^1], isFull ? Wide : TabAlone(Wide), new(Wide.Width));
        var narrow = BarsFigure.Lay(played, bars[0], bars[^1], TabAlone(Narrow), new(Narrow.Width));
        return Both(wide, narrow);
    }

    private static PageStyle TabAlone(PageStyle style) => style with { ShowNotation = false, ShowLegend = false };

    private string Both(Layout wide, Layout? narrow) =>
        narrow is null ? Svg(wide) : $"<div class=\"wide\">{Svg(wide)}</div><div class=\"narrow\">{Svg(narrow)}</div>";

    private string Svg(Layout layout) =>
        SvgWriter.Write(
            layout,
            options: new()
            {
                FixedSize = false,
                Prefix = $"d{drawn}-",
                EmbedFonts = drawn++ == 0,
            }
        );
}
