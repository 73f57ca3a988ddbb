using System.Collections.Immutable;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Forms;

namespace Rollwright.Formats.TextTab;

/// <summary>The lines of one system of tab.</summary>
internal sealed class SystemText(
    Break written,
    TabLayout layout,
    (int First, int Count) bars,
    ImmutableDictionary<StrokeName, string> marks
)
{
    private readonly List<int> lefts = [];

    public IEnumerable<string> Lines()
    {
        var left = layout.LabelWidth + 1;
        for (var i = 0; i < bars.Count; i++)
        {
            lefts.Add(left);
            left += layout.WidthOf(bars.First + i);
        }
        var heads = Above(MarksOf);
        if (heads.Length > 0)
            yield return heads;
        var chords = Above(ChordsOf);
        if (chords.Length > 0)
            yield return chords;
        var fingers = layout.HasLeftFingers ? Above(LeftFingersOf) : "";
        if (fingers.Length > 0)
            yield return fingers;
        for (var i = 1; i <= Neck.Strings; i++)
            yield return StringLine(i);
        for (var row = 0; row < FingerRows(); row++)
        {
            var which = row;
            yield return Above((bar, at) => FingersOf(bar, at, which));
        }
        var under = Above(MarksUnder);
        if (under.Length > 0)
            yield return under;
        yield return Above(CountOf);
    }

    private int FingerRows() =>
        Enumerable
            .Range(bars.First, bars.Count)
            .SelectMany(bar => written.Bars[bar].Strokes.Where(stroke => stroke.Right is not null).GroupBy(s => s.At))
            .Select(group => group.Count())
            .DefaultIfEmpty(0)
            .Max();

    // A line of words at places: each is moved right where the one before would touch it.
    private string Above(Func<int, int, IEnumerable<(int At, string Text)>> words)
    {
        var line = "";
        for (var i = 0; i < bars.Count; i++)
        {
            foreach (var (at, text) in words(bars.First + i, lefts[i]))
            {
                var place = line.Length == 0 || line.Length < at ? at : line.Length + 1;
                line = line.PadRight(place) + text;
            }
        }
        return line;
    }

    private int ColumnAt(int bar, int left, int column) =>
        left + layout.ColumnsStart(bar) + (column * layout.ColumnWidth) + layout.SlurWidth;

    private IEnumerable<(int At, string Text)> MarksOf(int bar, int left)
    {
        var marks = written.Bars[bar].Marks;
        // As on a printed page: the number of the bar that a system begins with, but for the first.
        if (bar == bars.First && bar > 0)
            yield return (0, $"{layout.Numbering.AtLineStart(bar)}");
        if (marks.Part is { } part)
            yield return (left, $"Part {part}");
        if (!marks.EndingStart.IsEmpty)
            yield return (left, $"[{string.Join(",", marks.EndingStart)}.".PadRight(layout.WidthOf(bar) - 1, '_'));
        if (marks.RepeatEnd > 2)
            yield return (left + layout.WidthOf(bar) - 9, $"{marks.RepeatEnd} times");
    }

    private IEnumerable<(int At, string Text)> ChordsOf(int bar, int left)
    {
        var grid = layout.GridOf(bar);
        foreach (var chord in written.Bars[bar].Chords)
            yield return (ColumnAt(bar, left, grid.ColumnAt(chord.At)), chord.Chord.ToString());
    }

    private IEnumerable<(int At, string Text)> CountOf(int bar, int left)
    {
        var grid = layout.GridOf(bar);
        var offset = layout.OffsetOf(bar);
        for (var column = 0; column < grid.Columns; column++)
        {
            if (grid.Count(column, written.Bars[bar].Time, offset) is { Length: > 0 } count)
                yield return (ColumnAt(bar, left, column), count);
        }
    }

    // Of fingers that pluck together, the one on the lowest string stands in the first row.
    private IEnumerable<(int At, string Text)> FingersOf(int bar, int left, int row)
    {
        var grid = layout.GridOf(bar);
        foreach (var group in written.Bars[bar].Strokes.Where(stroke => stroke.Right is not null).GroupBy(s => s.At))
        {
            var plucked = group.OrderByDescending(stroke => stroke.String).ToList();
            if (row < plucked.Count)
                yield return (ColumnAt(bar, left, grid.ColumnAt(group.Key)), $"{plucked[row].Right}");
        }
    }

    private IEnumerable<(int At, string Text)> MarksUnder(int bar, int left)
    {
        var grid = layout.GridOf(bar);
        var strokes = written.Bars[bar].Strokes.Select((stroke, i) => (stroke.At, Name: new StrokeName(bar, i)));
        foreach (var group in strokes.Where(stroke => marks.ContainsKey(stroke.Name)).GroupBy(stroke => stroke.At))
        {
            var text = string.Concat(group.Select(stroke => marks[stroke.Name]).Distinct());
            yield return (ColumnAt(bar, left, grid.ColumnAt(group.Key)), text);
        }
    }

    private IEnumerable<(int At, string Text)> LeftFingersOf(int bar, int left)
    {
        var grid = layout.GridOf(bar);
        foreach (var group in written.Bars[bar].Strokes.Where(stroke => stroke.Left is not null).GroupBy(s => s.At))
        {
            var finger = group.First().Left;
            yield return (ColumnAt(bar, left, grid.ColumnAt(group.Key)), finger == 0 ? "T" : $"{finger}");
        }
    }

    private string StringLine(int banjoString)
    {
        var line = layout.Labels[banjoString - 1].PadRight(layout.LabelWidth) + "|";
        for (var i = 0; i < bars.Count; i++)
            line += BarText(bars.First + i, banjoString);
        return line;
    }

    private string BarText(int bar, int banjoString)
    {
        var marks = written.Bars[bar].Marks;
        var grid = layout.GridOf(bar);
        // The dots of a repeat stand on strings 2 and 4, as on a staff.
        var dot = banjoString is 2 or 4 ? ":" : "-";
        var cells = new string[grid.Columns];
        Array.Fill(cells, new string('-', layout.ColumnWidth));
        foreach (var stroke in written.Bars[bar].Strokes.Where(stroke => stroke.String == banjoString))
            cells[grid.ColumnAt(stroke.At)] = Cell(stroke);
        return (marks.RepeatStart ? dot : "") + string.Concat(cells) + End(marks, dot);
    }

    private string Cell(Stroke stroke)
    {
        var slur = stroke.Slur is { } kind ? SlurNames.Letter(kind) : "";
        return slur.PadLeft(layout.SlurWidth, '-') + $"{stroke.Fret}".PadRight(layout.NumberWidth, '-');
    }

    private static string End(BarMarks marks, string dot) =>
        marks.RepeatEnd > 1 ? $"{dot}||"
        : marks.SectionEnd ? "||"
        : "|";
}
