using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
using Rollwright.Engraving.Signs;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Tab;

/// <summary>Stems and beams under a tab that stands without notation, so that the rhythm can be read.</summary>
internal static class RhythmStems
{
    /// <summary>Draws the stems of one bar below the tab.</summary>
    /// <param name="top">Where stems may start.</param>
    /// <returns>Where the ink ends.</returns>
    public static double Draw(Sheet sheet, SetBar bar, double top, Sizes sizes)
    {
        var foot = top + (2.9 * sizes.Space);
        for (var i = 0; i < bar.Columns.Length; i++)
        {
            var moment = bar.Written.Moments[i];
            var x = bar.Columns[i];
            if (moment.IsRest)
            {
                DrawRest(sheet, moment, x, (top + foot) / 2, sizes);
                continue;
            }
            if (!moment.Value.HasStem)
                continue;
            // A half note has half a stem: no head is here to be left white.
            var start = moment.Value.Denominator == 2 ? (top + foot) / 2 : top;
            sheet.Add(new Rules(InkKind.Stem, [new(x, start, x, foot)], sizes.Stem));
            Dots.Draw(sheet, moment.Value.Dots, x + (0.5 * sizes.Space), foot - (1.9 * sizes.Space), sizes);
            if (moment is { Beam: < 0, Value.Flags: > 0 })
                sheet.Add(
                    new Sign(
                        InkKind.Flag,
                        Glyph.Flag(moment.Value.Flags, up: false),
                        x - (sizes.Stem / 2),
                        foot,
                        sizes.Space * 0.85
                    )
                );
        }
        DrawBeams(sheet, bar, foot, sizes);
        // A flag hangs a little lower than its stem.
        return foot + (0.6 * sizes.Space);
    }

    private static void DrawRest(Sheet sheet, WrittenMoment moment, double x, double y, Sizes sizes)
    {
        var glyph = Glyph.Rest(moment.Value.Denominator);
        var space = sizes.Space * 0.8;
        sheet.Add(new Sign(InkKind.Rest, glyph, x - (MusicFont.WidthOf(glyph) * space / 2), y, space));
        Dots.Draw(sheet, moment.Value.Dots, x + (0.8 * sizes.Space), y, sizes);
    }

    private static void DrawBeams(Sheet sheet, SetBar bar, double foot, Sizes sizes)
    {
        foreach (var (first, after) in BeamRuns.Groups(bar))
        foreach (var (level, from, to) in BeamRuns.Of(bar, first, after))
        {
            var (left, right) = BeamRuns.EndsOf(bar.Columns.AsSpan()[first..after], from, to, sizes);
            var y = foot - ((level - 1) * (sizes.Beam + sizes.BeamGap)) - (sizes.Beam / 2);
            sheet.Add(new Rules(InkKind.Beam, [new(left, y, right, y)], sizes.Beam));
        }
    }
}
