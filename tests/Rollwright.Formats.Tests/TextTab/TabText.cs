using System.Text.RegularExpressions;
using Rollwright.Music.Metre;

namespace Rollwright.Formats.Tests.TextTab;

/// <summary>A strict reader of plain-text tab, for tests: it knows the page and nothing of the writer.</summary>
public static partial class TabText
{
    /// <param name="Bar">From 0.</param>
    /// <param name="Place">Share of the bar at which the note stands, by its column.</param>
    /// <param name="String">1 to 5.</param>
    /// <param name="Fret">The number.</param>
    /// <param name="Slur">Letters in front of it.</param>
    public readonly record struct Mark(int Bar, Fraction Place, int String, int Fret, string Slur);

    public static List<Mark> Read(string text)
    {
        var lines = text.Split('\n');
        var rows = lines.Where(line => StringRow().IsMatch(line)).ToList();
        (rows.Count % 5).Should().Be(0, "a system has five strings");
        var slurWidth = rows.Exists(row => row.Contains("ch", StringComparison.Ordinal)) ? 2 : 1;
        var numberWidth = rows.SelectMany(row => Number().Matches(row)).Select(m => m.Length).DefaultIfEmpty(1).Max();
        var marks = new List<Mark>();
        var bar = 0;
        foreach (var system in rows.Chunk(5))
        {
            system.Select(row => row.Length).Distinct().Should().ContainSingle("the strings of a system end together");
            foreach (var (start, end) in Bars(system))
                ReadBar(marks, bar++, [.. system.Select(row => row[start..end])], slurWidth, numberWidth);
        }
        return [.. marks.OrderBy(mark => mark.Bar).ThenBy(mark => mark.Place).ThenBy(mark => mark.String)];
    }

    private static IEnumerable<(int, int)> Bars(string[] system)
    {
        var start = system[0].IndexOf('|', StringComparison.Ordinal) + 1;
        for (var at = start; at < system[0].Length; at++)
        {
            if (system[0][at] != '|')
                continue;
            system.Should().OnlyContain(row => row[at] == '|');
            if (at > start)
                yield return (start, at);
            start = at + 1;
        }
    }

    private static void ReadBar(List<Mark> marks, int bar, string[] rows, int slurWidth, int numberWidth)
    {
        if (rows[1][0] == ':')
            rows = [.. rows.Select(row => row[1..])];
        if (rows[1][^1] == ':')
            rows = [.. rows.Select(row => row[..^1])];
        var width = slurWidth + numberWidth;
        (rows[0].Length % width).Should().Be(0, "columns have one width");
        var columns = rows[0].Length / width;
        for (var column = 0; column < columns; column++)
        {
            for (var i = 0; i < 5; i++)
            {
                var cell = rows[i].Substring(column * width, width);
                var slur = cell[..slurWidth].Trim('-');
                var number = cell[slurWidth..].TrimEnd('-');
                if (number.Length > 0)
                    marks.Add(new(bar, new(column, columns), i + 1, int.Parse(number), slur));
            }
        }
    }

    [GeneratedRegex(@"^[A-Ga-g1-5][#b]{0,2} *\|[-|:0-9hpsc]*$", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex StringRow();

    [GeneratedRegex("[0-9]+", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Number();
}
