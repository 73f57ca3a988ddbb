using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Strokes;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Forms;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.TextTab;

/// <summary>Widths that all systems share, and the grid of each bar.</summary>
internal sealed class TabLayout
{
    private readonly Break written;
    private readonly BarGrid[] grids;

    public TabLayout(Break written, TextTabOptions options)
    {
        this.written = written;
        Numbering = written.Numbering;
        grids = [.. written.Bars.Select(BarGrid.Of)];
        var strokes = written.Bars.SelectMany(bar => bar.Strokes).ToList();
        NumberWidth = strokes.Select(stroke => $"{stroke.Fret}".Length).DefaultIfEmpty(1).Max();
        SlurWidth = strokes.Exists(stroke => stroke.Slur == SlurKind.Choke) ? 2 : 1;
        Labels = [.. LabelsOf(written.Setting.Tuning)];
        LabelWidth = Labels.Max(label => label.Length);
        HasLeftFingers = options.LeftFingers && strokes.Exists(stroke => stroke.Left is not null);
    }

    public int NumberWidth { get; }

    /// <summary>Room in front of each number for the letters of a slur.</summary>
    public int SlurWidth { get; }

    public int ColumnWidth => SlurWidth + NumberWidth;

    /// <summary>Names of strings 1 to 5.</summary>
    public IReadOnlyList<string> Labels { get; }

    public int LabelWidth { get; }

    public bool HasLeftFingers { get; }

    public BarNumbering Numbering { get; }

    public BarGrid GridOf(int bar) => grids[bar];

    /// <summary>Characters of a bar, its bar line at the right included.</summary>
    public int WidthOf(int bar)
    {
        var marks = written.Bars[bar].Marks;
        return (marks.RepeatStart ? 1 : 0)
            + (grids[bar].Columns * ColumnWidth)
            + (marks.RepeatEnd > 1 ? 1 : 0)
            + (marks.SectionEnd || marks.RepeatEnd > 1 ? 2 : 1);
    }

    /// <summary>Where the columns of a bar begin, from its left edge.</summary>
    public int ColumnsStart(int bar) => written.Bars[bar].Marks.RepeatStart ? 1 : 0;

    /// <summary>Whole notes of the full bar that lie before this one: a lead-in ends where its bar ends.</summary>
    public Fraction OffsetOf(int bar) => Numbering[bar].Missing;

    // The spelling names strings 5 to 1; a tuning without one is numbered.
    private static IEnumerable<string> LabelsOf(Tuning tuning)
    {
        var names = tuning.Spelling.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var isSpelled =
            names.Length == Neck.Strings && names.All(name => name.Length <= 3 && !name.Any(char.IsControl));
        for (var i = 1; i <= Neck.Strings; i++)
            yield return isSpelled ? names[Neck.Strings - i] : $"{i}";
    }
}
