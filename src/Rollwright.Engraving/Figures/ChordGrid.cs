using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;
using Rollwright.Engraving.Systems;

namespace Rollwright.Engraving.Figures;

/// <summary>A chord of a grid.</summary>
/// <param name="Where">Part of the bar before it, 0 to less than 1.</param>
/// <param name="Name">"D7".</param>
/// <param name="Degree">"5"; empty for none.</param>
/// <param name="Kind">"7", set small beside the degree.</param>
public sealed record GridChord(double Where, string Name, string Degree, string Kind);

/// <summary>A bar of a grid.</summary>
/// <param name="Chords">In order of time, the one that goes on from before among them.</param>
/// <param name="Ending">"1." where it is played on some passes only; empty where it is always played.</param>
public sealed record GridBar(ImmutableArray<GridChord> Chords, string Ending);

/// <summary>A part of a grid.</summary>
/// <param name="Name">"A".</param>
/// <param name="Times">How often it is played.</param>
/// <param name="Bars">Full bars.</param>
public sealed record GridPart(string Name, int Times, ImmutableArray<GridBar> Bars);

/// <summary>Chords in boxes, a box a bar, the parts in rows of four or eight bars: what those who accompany read.</summary>
public static class ChordGrid
{
    private const double LabelWidth = 40;
    private const double NarrowLabelWidth = 26;
    private const double ColumnGap = 12;
    private const double PartGap = 7;

    /// <param name="parts">In order.</param>
    /// <param name="style">Width and caption.</param>
    /// <param name="across">Bars in a row, 4 or 8.</param>
    /// <param name="scale">Size of boxes and letters, 0.5 to 1.5.</param>
    /// <exception cref="ArgumentException">The width is too small.</exception>
    public static Layout Lay(IReadOnlyList<GridPart> parts, FigureStyle style, int across = 4, double scale = 1) =>
        Lay(
            [
                [.. parts],
            ],
            style,
            across,
            scale
        );

    /// <summary>The same in columns, each with parts of its own.</summary>
    public static Layout Lay(
        IReadOnlyList<ImmutableArray<GridPart>> columns,
        FigureStyle style,
        int across,
        double scale
    )
    {
        ArgumentNullException.ThrowIfNull(columns);
        Figure.Check(style);
        var whole = (style.Width - (2 * Figure.Edge) - (ColumnGap * (columns.Count - 1))) / columns.Count;
        var label = columns.Count > 1 ? NarrowLabelWidth : LabelWidth;
        var width = (whole - label) / across;
        if (width < 20)
            throw new ArgumentException(
                $"A grid of {across} bars a row does not fit {style.Width:0} points; take a wider column.",
                nameof(style)
            );
        var all = new Sheet();
        for (var column = 0; column < columns.Count; column++)
            Column(all, columns[column], column * (whole + ColumnGap), label, width, across, scale);
        var said = string.Join(
            "; ",
            columns
                .SelectMany(column => column)
                .Select(part => $"{part.Name}: {string.Join(" | ", part.Bars.Select(Said))}")
        );
        return Figure.Of(all, "Chords", $"Chords by bar. {said}", style);
    }

    private static void Column(
        Sheet all,
        ImmutableArray<GridPart> parts,
        double left,
        double label,
        double width,
        int across,
        double scale
    )
    {
        var height = 30 * scale;
        var y = 0.0;
        foreach (var part in parts)
        {
            Write(all, part.Name, left + 4, y + (height / 2) + (5 * scale), 15 * scale, Face.Bold, Anchor.Left);
            if (part.Times > 1)
                Write(
                    all,
                    $"{part.Times}×",
                    left + label - 6,
                    y + (height / 2) + (5 * scale),
                    9 * scale,
                    Face.Roman,
                    Anchor.Right
                );
            for (var i = 0; i < part.Bars.Length; i++)
            {
                if (i > 0 && i % across == 0)
                    y += height;
                Cell(all, part.Bars[i], left + label + (i % across * width), y, width, height, scale);
            }
            y += height + (PartGap * scale);
        }
    }

    private static void Cell(
        Sheet sheet,
        GridBar bar,
        double left,
        double top,
        double width,
        double height,
        double scale
    )
    {
        double right = left + width,
            bottom = top + height;
        sheet.Add(
            new Rules(
                InkKind.GridCell,
                [
                    new(left, top, right, top),
                    new(right, top, right, bottom),
                    new(right, bottom, left, bottom),
                    new(left, bottom, left, top),
                ],
                0.8
            )
        );
        if (bar.Ending.Length > 0)
            Write(sheet, bar.Ending, right - 3, top + (8 * scale), 7 * scale, Face.Roman, Anchor.Right);
        for (var i = 0; i < bar.Chords.Length; i++)
        {
            var chord = bar.Chords[i];
            var end = i + 1 < bar.Chords.Length ? bar.Chords[i + 1].Where : 1;
            var room = ((end - chord.Where) * width) - 6;
            var x = left + 4 + (chord.Where * width);
            Fitted(sheet, chord, x, bottom, room, scale);
        }
    }

    // Beside each other where there is room, else the number below the name.
    private static void Fitted(Sheet sheet, GridChord chord, double x, double bottom, double room, double scale)
    {
        var (large, small) = (13 * scale, 8.5 * scale);
        var name = Math.Min(large, large * room / Math.Max(1, Lettering.WidthOf(chord.Name, large, Face.Bold)));
        var nameWidth = Lettering.WidthOf(chord.Name, name, Face.Bold);
        var numberWidth =
            Lettering.WidthOf(chord.Degree, small, Face.Roman)
            + Lettering.WidthOf(chord.Kind, small * 0.75, Face.Roman);
        var isBeside = nameWidth + 5 + numberWidth <= room;
        Write(sheet, Printed(chord.Name), x, bottom - ((isBeside ? 10 : 15) * scale), name, Face.Bold, Anchor.Left);
        if (chord.Degree.Length == 0)
            return;
        var (left, y) = isBeside ? (x + nameWidth + 5, bottom - (10 * scale)) : (x, bottom - (4.5 * scale));
        Write(sheet, Printed(chord.Degree), left, y, small, Face.Roman, Anchor.Left);
        if (chord.Kind.Length > 0)
            Write(
                sheet,
                Printed(chord.Kind),
                left + Lettering.WidthOf(chord.Degree, small, Face.Roman) + 0.5,
                y - (small * 0.3),
                small * 0.75,
                Face.Roman,
                Anchor.Left
            );
    }

    // In names of chords these letters are signs, and nothing else.
    private static string Printed(string name) => name.Replace('b', '♭').Replace('#', '♯');

    private static string Said(GridBar bar) => string.Join(' ', bar.Chords.Select(chord => chord.Name));

    private static void Write(Sheet sheet, string text, double x, double y, double size, Face face, Anchor anchor) =>
        sheet.Add(new Words(InkKind.GridCell, text, x, y, size, face, anchor));
}
