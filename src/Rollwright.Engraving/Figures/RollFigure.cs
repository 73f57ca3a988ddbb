using System.Collections.Immutable;
using Rollwright.Banjo.Rolls;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Labels;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;
using Rollwright.Engraving.Tab;

namespace Rollwright.Engraving.Figures;

/// <summary>A table of rolls: each with its name, its usual strings as tab and its fingers below.</summary>
public static class RollFigure
{
    /// <exception cref="ArgumentException">The width is too small.</exception>
    public static Layout Lay(ImmutableArray<Roll> rolls, FigureStyle style)
    {
        Figure.Check(style);
        var sizes = new Sizes(1);
        var names = rolls.Max(roll => Lettering.WidthOf(roll.Name, sizes.Credit, Face.Italic));
        var left = names + (10 * sizes.Scale);
        var step = Math.Min(
            18,
            (style.Width - (2 * Figure.Edge) - left) / (rolls.Max(roll => roll.Strings.Length) + 0.5)
        );
        if (step < sizes.Number)
            throw new ArgumentException(
                $"A table of rolls does not fit {style.Width:0} points; take a wider column.",
                nameof(style)
            );
        var all = new Sheet();
        var y = 0.0;
        foreach (var roll in rolls)
        {
            all.Add(RowOf(roll, left, step, sizes), y);
            y += sizes.TabHeight + (26 * sizes.Scale);
        }
        var words = $"Rolls: {string.Join(", ", rolls.Select(roll => roll.Name))}. {style.Caption}".TrimEnd();
        return Figure.Of(all, "Rolls", words, style);
    }

    private static Sheet RowOf(Roll roll, double left, double step, Sizes sizes)
    {
        var sheet = new Sheet();
        var right = left + (step * (roll.Strings.Length + 0.5));
        sheet.Add(
            new Words(
                InkKind.SpanName,
                roll.Name,
                0,
                (sizes.TabHeight / 2) + (sizes.Credit * Lettering.CapitalHeight / 2),
                sizes.Credit,
                Face.Italic,
                Anchor.Left
            )
        );
        for (var i = 0; i < roll.Strings.Length; i++)
        {
            var x = left + (step * (i + 0.75));
            var baseline = TabStaff.Y(roll.Strings[i], sizes) + TabNumbers.HalfHeight(sizes);
            sheet.Add(new Words(InkKind.TabNumber, "0", x, baseline, sizes.Number, Face.Plain, Anchor.Middle));
            sheet.Add(
                new Words(
                    InkKind.RightFinger,
                    $"{roll.FingerAt(i)}",
                    x,
                    sizes.TabHeight + (15 * sizes.Scale),
                    sizes.Finger,
                    Face.Roman,
                    Anchor.Middle
                )
            );
        }
        sheet.Add(TabStaff.Lines(sheet, left, right, sizes));
        sheet.Add(
            new Rules(
                InkKind.BarLine,
                [new(left, 0, left, sizes.TabHeight), new(right, 0, right, sizes.TabHeight)],
                sizes.ThinBarLine
            )
        );
        return sheet;
    }
}
