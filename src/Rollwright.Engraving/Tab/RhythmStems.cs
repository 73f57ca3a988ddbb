using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Notation;
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
            Signs.Dots.Draw(sheet, moment.Value.Dots, x + (0.5 * sizes.Space), foot - (1.9 * sizes.Space), sizes);
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
        Signs.Dots.Draw(sheet, moment.Value.Dots, x + (0.8 * sizes.Space), y, sizes);
    }

    private static void DrawBeams(Sheet sheet, SetBar bar, double foot, Sizes sizes)
    {
        var moments = bar.Written.Moments;
        var stub = 1.1 * sizes.Space;
        var half = sizes.Stem / 2;
        for (var i = 0; i < moments.Length; i++)
        {
            if (moments[i].Beam < 0)
                continue;
            for (var level = 1; level <= moments[i].Value.Flags; level++)
            {
                var y = foot - ((level - 1) * (sizes.Beam + sizes.BeamGap));
                if (IsUnder(moments, i, i + 1, level))
                    Beam(sheet, bar.Columns[i] - half, bar.Columns[i + 1] + half, y, sizes);
                else if (!IsUnder(moments, i, i - 1, level))
                    Beam(
                        sheet,
                        i > 0 && moments[i - 1].Beam == moments[i].Beam ? bar.Columns[i] - stub : bar.Columns[i] - half,
                        i > 0 && moments[i - 1].Beam == moments[i].Beam ? bar.Columns[i] + half : bar.Columns[i] + stub,
                        y,
                        sizes
                    );
            }
        }
    }

    private static bool IsUnder(ImmutableArray<WrittenMoment> moments, int one, int other, int level) =>
        other >= 0
        && other < moments.Length
        && moments[other].Beam == moments[one].Beam
        && moments[other].Value.Flags >= level;

    private static void Beam(Sheet sheet, double left, double right, double foot, Sizes sizes) =>
        sheet.Add(
            new Rules(InkKind.Beam, [new(left, foot - (sizes.Beam / 2), right, foot - (sizes.Beam / 2))], sizes.Beam)
        );
}
