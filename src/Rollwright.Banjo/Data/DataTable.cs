using System.Collections.Immutable;

namespace Rollwright.Banjo.Data;

/// <summary>
/// Reads the one form that all data files share: a row a line, cells parted by '|', '#' to the end of the line a
/// comment, blank lines free. The first row names the columns.
/// </summary>
public sealed class DataTable
{
    private DataTable(
        string file,
        ImmutableArray<string> columns,
        ImmutableArray<Row> rows,
        ImmutableArray<DataException> faults
    )
    {
        File = file;
        Columns = columns;
        Rows = rows;
        Faults = faults;
    }

    public string File { get; }

    /// <summary>The names in the first row; empty where there is none.</summary>
    public ImmutableArray<string> Columns { get; }

    public ImmutableArray<Row> Rows { get; }

    /// <summary>Lines that are no rows, left out of <see cref="Rows"/>; empty after <see cref="Parse"/>.</summary>
    public ImmutableArray<DataException> Faults { get; }

    /// <exception cref="DataException">A row has too many or too few cells, or the head lacks a column.</exception>
    public static DataTable Parse(string file, string text, params ReadOnlySpan<string> columns)
    {
        var table = ParseAll(file, text, columns);
        return table.Faults.IsEmpty ? table : throw table.Faults[0];
    }

    /// <summary>Reads on after a wrong line and keeps what it says; without a sound head there is no row.</summary>
    public static DataTable ParseAll(string file, string text, params ReadOnlySpan<string> columns)
    {
        ImmutableArray<string>? head = null;
        var faults = ImmutableArray.CreateBuilder<DataException>();
        var rows = ImmutableArray.CreateBuilder<Row>();
        var number = 0;
        foreach (var raw in text.Split('\n'))
        {
            number++;
            var comment = raw.IndexOf('#', StringComparison.Ordinal);
            // A sharp belongs to a note's name; a comment starts a line or follows a blank.
            while (comment > 0 && raw[comment - 1] is not (' ' or '\t'))
                comment = raw.IndexOf('#', comment + 1);
            var line = (comment < 0 ? raw : raw[..comment]).Trim();
            if (line.Length == 0)
                continue;
            var cells = line.Split('|', StringSplitOptions.TrimEntries).ToImmutableArray();
            if (head is not { } names)
            {
                head = cells;
                foreach (var column in columns)
                {
                    if (cells.Contains(column))
                        continue;
                    faults.Add(new(file, number, $"the first row names the columns; '{column}' is missing"));
                    return new(file, cells, [], faults.ToImmutable());
                }
                continue;
            }
            if (cells.Length == names.Length)
                rows.Add(new(file, number, names, cells, raw));
            else
                faults.Add(new(file, number, $"{cells.Length} cells, but the first row names {names.Length} columns"));
        }
        return new(file, head ?? [], rows.ToImmutable(), faults.ToImmutable());
    }

    /// <summary>One row, its cells asked for by column.</summary>
    public sealed class Row(
        string file,
        int line,
        ImmutableArray<string> names,
        ImmutableArray<string> cells,
        string raw
    )
    {
        public int Line { get; } = line;

        public string this[string column] => cells[names.IndexOf(column)];

        public bool Has(string column) => names.Contains(column);

        public DataException Wrong(string message) => new(file, Line, message);

        /// <summary>A fault within a cell, some characters after its beginning.</summary>
        public DataException Wrong(string column, string message, int offset = 0)
        {
            var start = 0;
            for (var i = names.IndexOf(column); i > 0; i--)
                start = raw.IndexOf('|', start) + 1;
            while (start < raw.Length && raw[start] is ' ' or '\t')
                start++;
            return new(file, Line, message, start + offset + 1);
        }

        /// <exception cref="DataException">The cell holds no number.</exception>
        public double Number(string column) =>
            double.TryParse(this[column], out var value)
                ? value
                : throw Wrong($"{column} '{this[column]}' is not a number");

        /// <exception cref="DataException">The cell holds no whole number.</exception>
        public int Whole(string column) =>
            int.TryParse(this[column], out var value)
                ? value
                : throw Wrong($"{column} '{this[column]}' is not a whole number");
    }
}
