using System.Collections.Immutable;
using System.Globalization;
using Rollwright.Banjo.Breaks;
using Rollwright.Engraving;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Figures;
using Rollwright.Engraving.Svg;

namespace Rollwright.Lessons.Page;

/// <summary>
/// The drawings of one page, each for wide and for narrow windows: the page carries their fonts, and no two share an id.
/// </summary>
internal sealed class PageFigures
{
    private static readonly PageStyle Wide = PageStyle.Continuous(500) with { ShowHeading = false, Margin = 4 };
    private static readonly PageStyle Narrow = PageStyle.Phone with { Scale = 1.35, ShowHeading = false, Margin = 4 };

    private readonly Dictionary<string, string> packed = [];
    private readonly List<Layout> layouts = [];

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

    /// <summary>The drawings that the page's script puts in their places.</summary>
    public IReadOnlyDictionary<string, string> Packed => packed;

    private string Both(Layout wide, Layout? narrow) =>
        narrow is null ? Place("", wide) : Place("wide", wide) + Place("narrow", narrow);

    /// <summary>The fonts of all drawings, and of the page's own words.</summary>
    public string FontsWith(string prose) => SvgFonts.StyleSheet(layouts, prose);

    // The first stands in the page itself; the others are packed, and their room is kept free.
    private string Place(string kind, Layout layout)
    {
        var name = $"d{layouts.Count}-";
        var svg = SvgWriter.Write(layout, options: new() { FixedSize = false, Prefix = name });
        layouts.Add(layout);
        if (layouts.Count == 1)
            return $"<div class=\"{kind}\">{svg}</div>";
        packed.Add(name, svg);
        var page = layout.Pages[0];
        return string.Create(
            CultureInfo.InvariantCulture,
            $"<div class=\"{kind}\" data-drawing=\"{name}\" style=\"aspect-ratio: {page.Width:0.#} / {page.Height:0.#}\"></div>"
        );
    }
}
