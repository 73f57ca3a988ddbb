using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Flow;

/// <summary>Headings, paragraphs, notes and items of lists as lines.</summary>
internal sealed class TextPieces(FlowStyle style)
{
    // Line height and white as parts of the font's size: common practice of book pages, no source.
    private const double Leading = 1.34;
    private const double ParagraphGap = 0.55;
    private const double ItemGap = 0.28;
    private const double Hanging = 0.24;

    private static readonly (double Size, double Before, double After)[] Levels =
    [
        (1.95, 0, 0.45),
        (1.42, 1.5, 0.3),
        (1.13, 1.2, 0.15),
    ];

    private double Size => style.Size;

    public IEnumerable<Piece> Heading(Heading heading)
    {
        var (size, before, after) = Levels[Math.Clamp(heading.Level, 1, Levels.Length) - 1];
        var lines = Lines([new(heading.Text, Face.Bold)], 0, Size * size, Size * before, InkKind.Heading);
        // The white below belongs to the heading, whatever comes.
        return lines.Select(
            (line, i) =>
                line with
                {
                    KeepsNext = true,
                    Height = line.Height + (i == lines.Count - 1 ? Size * after : 0),
                }
        );
    }

    public IEnumerable<Piece> Paragraph(ImmutableArray<TextRun> runs) =>
        Kept(Lines(runs, 0, Size, Size * ParagraphGap));

    public IEnumerable<Piece> Item(ItemBlock item)
    {
        var left = Size * (1.3 + (1.3 * item.Depth));
        var lines = Kept(Lines(item.Runs, left, Size, Size * ItemGap));
        if (lines.Count == 0)
            return lines;
        var mark = new Words(
            InkKind.Text,
            item.Mark,
            left - (Size * 0.5),
            Baseline(Size),
            Size,
            Face.Roman,
            Anchor.Right
        );
        lines[0] = lines[0] with { Inks = [mark, .. lines[0].Inks] };
        return lines;
    }

    public IEnumerable<Piece> Note(ImmutableArray<TextRun> runs)
    {
        var lines = Kept(Lines([.. runs.Select(Italic)], Size * 1.1, Size, Size * ParagraphGap * 1.3));
        return lines.Select(
            (line, i) =>
                line with
                {
                    // Joined to the line before; a note that goes on over a page has its rule on both.
                    Inks =
                    [
                        new Rules(InkKind.Text, [new Segment(Size * 0.35, 0, Size * 0.35, line.Height)], Size * 0.16),
                        .. line.Inks,
                    ],
                }
        );
    }

    public IEnumerable<Piece> AsTheyAre(ImmutableArray<string> lines) =>
        lines.Select(
            (line, i) =>
                new Piece(
                    [
                        .. RunLines.Ink(
                            [new(line.Replace('\t', ' '), Face.Plain)],
                            Size,
                            Baseline(Size * 0.9),
                            Size * 0.9
                        ),
                    ],
                    Size * 1.2,
                    i == 0 ? Size * ParagraphGap : 0,
                    KeepsNext: i < Math.Min(lines.Length - 1, 30)
                )
        );

    /// <summary>Lines of words under a figure.</summary>
    public List<Piece> Caption(string caption) =>
        [
            .. Lines([new(caption, Face.Italic)], 0, Size * 0.88, Size * 0.35, InkKind.Caption)
                .Select(line => line with { KeepsNext = true }),
        ];

    public static double Baseline(double size) => size * (Leading - Hanging);

    private List<Piece> Lines(
        ImmutableArray<TextRun> runs,
        double left,
        double size,
        double before,
        InkKind kind = InkKind.Text
    ) =>
        [
            .. RunLines
                .Of(runs, style.TextWidth - left, size)
                .Select(
                    (line, i) =>
                        new Piece(
                            [.. RunLines.Ink(line, left, Baseline(size), size).Select(ink => ink with { Kind = kind })],
                            size * Leading,
                            i == 0 ? before : 0
                        )
                ),
        ];

    // No single line of a paragraph at the foot or the head of a page.
    private static List<Piece> Kept(List<Piece> lines) =>
        [.. lines.Select((line, i) => line with { KeepsNext = (i == 0 && lines.Count > 1) || i == lines.Count - 2 })];

    private static TextRun Italic(TextRun run) => run.Face == Face.Roman ? run with { Face = Face.Italic } : run;
}
