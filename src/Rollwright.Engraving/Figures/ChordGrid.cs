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
    private const double NameSize = 13;
    private const double LabelWidth = 40;
    private const double NarrowLabelWidth = 26;
    private const double ColumnGap = 12;
    private const double PartGap = 7;

    /// <summary>Height of a box at scale 1, in points.</summary>
    public const double BoxHeight = 30;

    /// <summary>Names stand above each other rather than smaller than this, in points: what can just be read on a music stand (assumption).</summary>
    public const double LeastName = 7;

    /// <param name="parts">In order.</param>
    /// <param name="style">Width and caption.</param>
    /// <param name="across">Bars in a row, 4 or 8.</param>
    /// <param name="scale">Size of boxes and letters, 0.5 to 1.5.</param>
    /// <param name="stretch">How much higher the boxes are, 1 or more; letters stay.</param>
    /// <exception cref="ArgumentException">The width is too small.</exception>
    public static Layout Lay(
        IReadOnlyList<GridPart> parts,
        FigureStyle style,
        int across = 4,
        double scale = 1,
        double stretch = 1
    ) =>
        Lay(
            [
                [.. parts],
            ],
            style,
            across,
            scale,
            stretch
        );

    /// <summary>The same in columns, each with parts of its own.</summary>
    public static Layout Lay(
        IReadOnlyList<ImmutableArray<GridPart>> columns,
        FigureStyle style,
        int across,
        double scale,
        double stretch = 1
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
            Column(
                all,
                columns[column],
                column * (whole + ColumnGap),
                label,
                new(width, BoxHeight * scale * stretch),
                across,
                scale
            );
        var said = string.Join(
            "; ",
            columns
                .SelectMany(column => column)
                .Select(part => $"{part.Name}: {string.Join(" | ", part.Bars.Select(Said))}")
        );
        return Figure.Of(all, "Chords", $"Chords by bar. {said}", style);
    }

    private readonly record struct BoxSize(double Width, double Height);

    private static void Column(
        Sheet all,
        ImmutableArray<GridPart> parts,
        double left,
        double label,
        BoxSize size,
        int across,
        double scale
    )
    {
        var (width, height) = size;
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
                Cell(all, part.Bars[i], left + label + (i % across * width), y, size, scale);
            }
            y += height + (PartGap * scale);
        }
    }

    private static void Cell(Sheet sheet, GridBar bar, double left, double top, BoxSize size, double scale)
    {
        double right = left + size.Width,
            bottom = top + size.Height;
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
        if (IsTooSmall(bar.Chords, size.Width, scale))
        {
            Halves(sheet, bar.Chords, left, top, size, scale);
            return;
        }
        // A box that is higher than its letters need has them in its middle.
        var foot = bottom - ((size.Height - (BoxHeight * scale)) / 2);
        for (var i = 0; i < bar.Chords.Length; i++)
            Fitted(
                sheet,
                bar.Chords[i],
                left + 4 + (bar.Chords[i].Where * size.Width),
                foot,
                Room(bar.Chords, i, size.Width, 1) - 6,
                scale
            );
    }

    private static double Room(ImmutableArray<GridChord> chords, int index, double width, double end) =>
        ((index + 1 < chords.Length ? chords[index + 1].Where : end) - chords[index].Where) * width;

    private static bool IsTooSmall(ImmutableArray<GridChord> chords, double width, double scale)
    {
        if (chords.Length < 2 || chords[^1].Where < 0.5)
            return false;
        var least = Math.Min(LeastName, NameSize * scale);
        return Enumerable
            .Range(0, chords.Length)
            .Any(i => Lettering.WidthOf(chords[i].Name, least, Face.Bold) > Room(chords, i, width, 1) - 6);
    }

    // The first half of the bar above, the second below and to the right, each as wide as the box.
    private static void Halves(
        Sheet sheet,
        ImmutableArray<GridChord> chords,
        double left,
        double top,
        BoxSize size,
        double scale
    )
    {
        ImmutableArray<GridChord>[] halves =
        [
            [.. chords.Where(chord => chord.Where < 0.5).Select(chord => chord with { Where = chord.Where * 2 })],
            [
                .. chords
                    .Where(chord => chord.Where >= 0.5)
                    .Select(chord => chord with { Where = (chord.Where * 2) - 1 }),
            ],
        ];
        var height = size.Height / 2;
        for (var half = 0; half < halves.Length; half++)
        {
            var some = halves[half];
            for (var i = 0; i < some.Length; i++)
            {
                var room = Room(some, i, size.Width, 1) - 6;
                var x = left + 3 + (some[i].Where * size.Width);
                InHalf(sheet, some[i], new(x, top + (half * height)), new(room, height), scale, half == 1);
            }
        }
    }

    private readonly record struct Corner(double X, double Y);

    // The number stands beside the name where there is room for it, else below it; the name goes before.
    private static void InHalf(Sheet sheet, GridChord chord, Corner corner, BoxSize room, double scale, bool isRight)
    {
        const double Gap = 1.5;
        const double Small = LeastName * 0.75;
        // Height of a capital, of the letters' size.
        const double Capital = 0.72;
        var most = Math.Min(NameSize * scale, room.Height * 0.9);
        var number = NumberWidth(chord, Small);
        var wide = Lettering.WidthOf(chord.Name, 1, Face.Bold);
        var beside = Math.Min(most, (room.Width - number - Gap) / wide);
        var isBeside = chord.Degree.Length > 0 && beside >= LeastName;
        var name = isBeside ? beside : Math.Min(Math.Max(most, LeastName), room.Width / wide);
        var isBelow = chord.Degree.Length > 0 && !isBeside && (name * Capital) + (Small * 1.05) + 3 <= room.Height;
        var width = (name * wide) + (isBeside ? number + Gap : 0);
        var x = isRight ? corner.X + Math.Max(0, room.Width - width) : corner.X;
        var y = corner.Y + ((room.Height + (name * Capital) - (isBelow ? Small * 1.05 : 0)) / 2);
        Write(sheet, Printed(chord.Name), x, y, name, Face.Bold, Anchor.Left);
        if (isBeside)
            Number(sheet, chord, x + (name * wide) + Gap, y, Small);
        else if (isBelow)
            Number(sheet, chord, x, y + (Small * 1.05), Small);
    }

    private static double NumberWidth(GridChord chord, double size) =>
        Lettering.WidthOf(chord.Degree, size, Face.Roman) + Lettering.WidthOf(chord.Kind, size * 0.75, Face.Roman);

    // Beside each other where there is room, else the number below the name.
    private static void Fitted(Sheet sheet, GridChord chord, double x, double bottom, double room, double scale)
    {
        var (large, small) = (NameSize * scale, 8.5 * scale);
        var name = Math.Min(large, large * room / Math.Max(1, Lettering.WidthOf(chord.Name, large, Face.Bold)));
        var nameWidth = Lettering.WidthOf(chord.Name, name, Face.Bold);
        var numberWidth = NumberWidth(chord, small);
        var isBeside = nameWidth + 5 + numberWidth <= room;
        Write(sheet, Printed(chord.Name), x, bottom - ((isBeside ? 10 : 15) * scale), name, Face.Bold, Anchor.Left);
        if (chord.Degree.Length == 0)
            return;
        var (left, y) = isBeside ? (x + nameWidth + 5, bottom - (10 * scale)) : (x, bottom - (4.5 * scale));
        Number(sheet, chord, left, y, small);
    }

    private static void Number(Sheet sheet, GridChord chord, double left, double y, double size)
    {
        Write(sheet, Printed(chord.Degree), left, y, size, Face.Roman, Anchor.Left);
        if (chord.Kind.Length > 0)
            Write(
                sheet,
                Printed(chord.Kind),
                left + Lettering.WidthOf(chord.Degree, size, Face.Roman) + 0.5,
                y - (size * 0.3),
                size * 0.75,
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
