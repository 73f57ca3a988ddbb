using System.Collections.Immutable;
using System.Text;

namespace Rollwright.Arranging.Chording;

/// <summary>Writes rows of 24 numbers, one for each triad, as a table of a data file.</summary>
internal static class NumberRows
{
    /// <summary>To two places; rows in which every number is 0 are left out.</summary>
    public static string Write(ImmutableArray<string> names, double[] numbers)
    {
        var width = names.Max(name => name.Length);
        var text = new StringBuilder().Append("what".PadRight(width));
        foreach (var name in Triad.Names)
            text.Append(" | ").Append(name.PadLeft(5));
        text.Append('\n');
        foreach (var (row, name) in names.Index())
        {
            var cells = numbers.Skip(row * Triad.Count).Take(Triad.Count).Select(Cell).ToArray();
            if (cells.All(cell => cell == "0"))
                continue;
            text.Append(name.PadRight(width));
            foreach (var cell in cells)
                text.Append(" | ").Append(cell.PadLeft(5));
            text.Append('\n');
        }
        return text.ToString();
    }

    public static string Cell(double value) => Math.Round(value, 2) == 0 ? "0" : value.ToString("0.##");
}
