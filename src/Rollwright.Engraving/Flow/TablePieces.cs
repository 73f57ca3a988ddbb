using System.Collections.Immutable;
using Rollwright.Engraving.Drawing;
using Rollwright.Engraving.Measuring;

namespace Rollwright.Engraving.Flow;

/// <summary>Tables: a row a piece, the head on the page of the first rows.</summary>
internal sealed class TablePieces(FlowStyle style)
{
    private const double Padding = 5;
    private const double Leading = 1.3;

    // A table of so many rows is not parted.
    private const int MostKept = 20;

    private double Size => style.Size * 0.94;

    public IEnumerable<Piece> Table(TableBlock table)
    {
        var widths = Widths([table.Head, .. table.Rows]);
        var head = Row(table.Head, widths, Face.Bold, 0.9) with { Before = style.Size * 0.8, KeepsNext = true };
        yield return head;
        for (var i = 0; i < table.Rows.Length; i++)
            yield return Row(table.Rows[i], widths, Face.Roman, 0.35) with
            {
                KeepsNext =
                    i < table.Rows.Length - 1
                    && (table.Rows.Length <= MostKept || i == 0 || i == table.Rows.Length - 2),
            };
    }

    private Piece Row(ImmutableArray<string> cells, double[] widths, Face face, double rule)
    {
        var inks = new List<Ink>();
        double left = 0,
            height = 0;
        for (var i = 0; i < cells.Length; i++)
        {
            var y = 3.0;
            foreach (var line in RunLines.Of([new(cells[i], face)], widths[i] - (2 * Padding), Size))
            {
                inks.AddRange(RunLines.Ink(line, left + Padding, y + (Size * (Leading - 0.26)), Size));
                y += Size * Leading;
            }
            height = Math.Max(height, y + 3);
            left += widths[i];
        }
        inks.Add(new Rules(InkKind.Text, [new Segment(0, height, left, height)], rule));
        return new(inks, height, 0);
    }

    // As wide as they would like to be; where that is too much, each gives as much as it has over its longest word.
    private double[] Widths(ImmutableArray<ImmutableArray<string>> rows)
    {
        var columns = rows[0].Length;
        var (wanted, least) = (new double[columns], new double[columns]);
        for (var i = 0; i < columns; i++)
        {
            foreach (var cell in rows.Select(row => row[i]))
            {
                wanted[i] = Math.Max(wanted[i], WidthOf(cell) + (2 * Padding));
                foreach (var word in cell.Split(' ', '\n'))
                    least[i] = Math.Max(least[i], WidthOf(word) + (2 * Padding));
            }
        }
        var (all, room) = (wanted.Sum(), style.TextWidth);
        if (all <= room)
            return [.. wanted.Select(width => width + ((room - all) / columns))];
        var slack = wanted.Zip(least, (want, must) => want - must).Sum();
        var part = slack > 0 ? Math.Clamp((room - least.Sum()) / slack, 0, 1) : 0;
        var widths = least.Zip(wanted, (must, want) => must + (part * (want - must))).ToArray();
        var scale = Math.Min(1, room / widths.Sum());
        return [.. widths.Select(width => width * scale)];
    }

    // Bold is wider than roman: room for either.
    private double WidthOf(string text) => Lettering.WidthOf(text, Size, Face.Bold) + 0.5;
}
