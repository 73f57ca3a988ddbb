namespace Rollwright.Banjo.Data;

/// <summary>What is wrong in a data file, where, and what to do: "rolls.txt:12: …", or "licks.txt:12:40: …".</summary>
public sealed class DataException(string file, int line, string message, int column = 0)
    : Exception(column > 0 ? $"{file}:{line}:{column}: {message}" : $"{file}:{line}: {message}")
{
    public string File { get; } = file;

    /// <summary>Counted from 1.</summary>
    public int Line { get; } = line;

    /// <summary>Counted from 1; 0 where the whole line is meant.</summary>
    public int Column { get; } = column;
}
