using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Tab;

/// <summary>
/// Fret numbers on their strings. Notes of the tune are bold with a line under them: weight and shape, never colour
/// alone.
/// </summary>
internal static class TabNumbers
{
    public static double WidthOf(Stroke stroke, PageStyle style, Sizes sizes) =>
        Lettering.WidthOf($"{stroke.Fret}", sizes.Number, FaceOf(stroke, style));

    /// <summary>Half the height of a number.</summary>
    public static double HalfHeight(Sizes sizes) => sizes.Number * Lettering.CapitalHeight / 2;

    public static void Draw(Sheet sheet, SetBar bar, PageStyle style, Sizes sizes)
    {
        foreach (var (moment, x) in bar.Struck())
        {
            foreach (var note in moment.Notes)
            {
                var stroke = bar.Written.Bar.Strokes[note.Stroke];
                var y = TabStaff.Y(stroke.String, sizes);
                var name = new StrokeName(bar.Written.Index, note.Stroke);
                sheet.Add(
                    new Words(
                        InkKind.TabNumber,
                        $"{stroke.Fret}",
                        x,
                        y + HalfHeight(sizes),
                        sizes.Number,
                        FaceOf(stroke, style),
                        Anchor.Middle
                    )
                    {
                        Stroke = name,
                    }
                );
                if (!stroke.IsMelody || !style.ShowMelody)
                    continue;
                var half = (WidthOf(stroke, style, sizes) / 2) + (0.2 * sizes.Scale);
                var under = y + HalfHeight(sizes) + (0.75 * sizes.Scale);
                sheet.Add(
                    new Rules(InkKind.MelodyLine, [new(x - half, under, x + half, under)], 0.7 * sizes.Scale)
                    {
                        Stroke = name,
                    }
                );
            }
        }
    }

    private static Face FaceOf(Stroke stroke, PageStyle style) =>
        stroke.IsMelody && style.ShowMelody ? Face.PlainBold : Face.Plain;
}
