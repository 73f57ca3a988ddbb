using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Systems;

/// <summary>Puts heading, systems, legend and page numbers on pages.</summary>
internal sealed class PageSetting(PageStyle style, Sizes sizes, string title)
{
    private double Gap => 17 * sizes.Scale;

    private double FooterHeight => 14 * sizes.Scale;

    /// <summary>A system on its page: what must be added to the heights of its sheet.</summary>
    public readonly record struct Placed(int Page, double Down);

    public (ImmutableArray<LaidPage> Pages, ImmutableArray<Placed> Places) Set(
        Sheet? heading,
        ImmutableArray<SystemDrawing.Drawn> systems,
        Sheet legend,
        Func<int, bool> endsPart
    )
    {
        ImmutableArray<double> heights = [.. systems.Select(system => system.Sheet.Box.Height)];
        var headingHeight = heading is null ? 0 : heading.Box.Bottom + (12 * sizes.Scale);
        var legendHeight = legend.Inks.Count == 0 ? 0 : legend.Box.Bottom + (10 * sizes.Scale);
        if (style.Height is not { } height)
        {
            var total = headingHeight + heights.Sum() + (Gap * (heights.Length - 1)) + legendHeight;
            height = total + (2 * style.Margin);
            return SetPages([heights.Length], (_, _) => Gap, height, numbered: false);
        }
        var room = height - (2 * style.Margin) - legendHeight - FooterHeight;
        var ends = PageFilling.Fill(heights, Gap, page => room - (page == 0 ? headingHeight : 0), endsPart);
        return SetPages(ends, SpreadGap, height, numbered: ends.Length > 1);

        // White that is left goes between the systems, as long as they still belong together.
        double SpreadGap(int first, int after)
        {
            var free = room - (first == 0 ? headingHeight : 0);
            for (var i = first; i < after; i++)
                free -= heights[i];
            return after - first < 2
                ? Gap
                : Math.Clamp(free / (after - first - 1), Gap, (ends.Length > 1 ? 2.6 : 1.9) * Gap);
        }

        (ImmutableArray<LaidPage>, ImmutableArray<Placed>) SetPages(
            ImmutableArray<int> ends,
            Func<int, int, double> gapOf,
            double pageHeight,
            bool numbered
        )
        {
            var pages = ImmutableArray.CreateBuilder<LaidPage>();
            var places = ImmutableArray.CreateBuilder<Placed>();
            var first = 0;
            foreach (var after in ends)
            {
                var page = new Sheet();
                var y = style.Margin;
                if (first == 0 && heading is not null)
                {
                    page.Add(heading, y);
                    y += headingHeight;
                }
                var gap = gapOf(first, after);
                for (var i = first; i < after; i++)
                {
                    var down = y - systems[i].Sheet.Box.Top;
                    page.Add(systems[i].Sheet, down);
                    places.Add(new(pages.Count, down));
                    y += heights[i] + gap;
                }
                var footer = pageHeight - style.Margin - (numbered ? FooterHeight : 0);
                if (after == heights.Length && legend.Inks.Count > 0)
                    page.Add(legend, footer - legend.Box.Bottom);
                if (numbered)
                    AddNumber(page, pages.Count, ends.Length, pageHeight);
                pages.Add(new(style.Width, pageHeight, [.. page.Inks]));
                first = after;
            }
            return (pages.ToImmutable(), places.ToImmutable());
        }
    }

    private void AddNumber(Sheet page, int index, int count, double height)
    {
        var text = $"{title}, page {index + 1} of {count}";
        if (Lettering.WidthOf(text, sizes.Legend, Face.Roman) > style.Width - (2 * style.Margin))
            text = $"{index + 1} / {count}";
        var y = height - style.Margin - (sizes.Legend * 0.25);
        page.Add(new Words(InkKind.PageNumber, text, style.Width / 2, y, sizes.Legend, Face.Roman, Anchor.Middle));
    }
}
