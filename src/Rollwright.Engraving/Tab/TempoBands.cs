using System.Globalization;
using Rollwright.Banjo.Playability;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rules = Rollwright.Engraving.Drawing.Rules;

namespace Rollwright.Engraving.Tab;

/// <summary>
/// A thin band under each bar: as full as the break's own tempo fills what is comfortable there, and that tempo as a number
/// where the band ends. A bar that is too fast for comfort has a full band and a mark.
/// </summary>
internal sealed class TempoBands(TempoLimit limit, double tempo)
{
    /// <param name="top">Where the bands start.</param>
    public void Draw(Sheet sheet, SetSystem system, double top, Sizes sizes)
    {
        var thick = 2.2 * sizes.Scale;
        var y = top + (thick / 2);
        foreach (var bar in system.Bars)
        {
            double left = bar.Left + (2 * sizes.Scale),
                right = bar.Right - (2 * sizes.Scale);
            var ceiling = limit.Bars[bar.Written.Index].PerMinute;
            var words = new Words(
                InkKind.TempoBand,
                ceiling is { } most
                    ? (most < tempo ? "! " : "") + Math.Floor(most).ToString(CultureInfo.InvariantCulture)
                    : "–",
                right,
                y + (sizes.BarNumber * Lettering.CapitalHeight / 2),
                sizes.BarNumber,
                Face.Plain,
                Anchor.Right
            );
            var end = words.Box.Left - (2 * sizes.Scale);
            if (end <= left)
                continue;
            sheet.Add(words);
            sheet.Add(new Rules(InkKind.TempoBand, [new(left, y, end, y)], 0.5 * sizes.Scale));
            var full = ceiling is { } known ? Math.Min(1, tempo / known) : 0;
            if (full > 0)
                sheet.Add(new Rules(InkKind.TempoBand, [new(left, y, left + (full * (end - left)), y)], thick));
        }
    }
}
