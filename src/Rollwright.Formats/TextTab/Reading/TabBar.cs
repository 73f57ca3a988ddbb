using Rollwright.Music.Forms;

namespace Rollwright.Formats.TextTab.Reading;

/// <summary>One bar of a system, by columns.</summary>
/// <param name="System">Index of its system.</param>
/// <param name="Start">First column behind the bar line and the dots of a repeat.</param>
/// <param name="End">Column of the bar line, or of the dots before it.</param>
/// <param name="Marks">Repeats and double lines; what words say is added later.</param>
internal sealed record TabBar(int System, int Start, int End, BarMarks Marks)
{
    public int Width => End - Start;

    // Dots of a repeat as they are typed.
    private const string Dots = ":*o";

    public static IEnumerable<TabBar> Of(TabSystem system, int index)
    {
        var width = system.Strings.Max(line => line.Text.Length);
        var start = system.Strings.Max(line => line.BodyStart);
        var marks = BarMarks.None;
        TabBar? open = null;
        for (var column = start; column <= width; column++)
        {
            var isLine = column == width || system.Strings.Count(line => line.At(column) == '|') >= 3;
            if (!isLine)
                continue;
            var isEmpty = column == start || !HasContent(system, start, column);
            if (isEmpty && open is not null && column < width)
                open = open with { Marks = open.Marks with { SectionEnd = true } };
            else if (!isEmpty)
            {
                if (open is not null)
                    yield return open;
                var ends = HasDots(system, column - 1);
                open = new(index, start, ends ? column - 1 : column, marks with { RepeatEnd = ends ? 2 : 0 });
                marks = BarMarks.None;
            }
            start = column + 1;
            if (HasDots(system, start) && column < width)
            {
                marks = marks with { RepeatStart = true };
                start++;
            }
        }
        if (open is not null)
            yield return open;
    }

    private static bool HasDots(TabSystem system, int column) =>
        system.Strings.Any(line => Dots.Contains(line.At(column), StringComparison.Ordinal));

    private static bool HasContent(TabSystem system, int from, int to)
    {
        for (var column = from; column < to; column++)
        {
            if (system.Strings.Any(line => line.At(column) == '-' || char.IsAsciiDigit(line.At(column))))
                return true;
        }
        return false;
    }
}
