namespace Rollwright.Banjo.Data;

/// <summary>What is wrong in a data file, where, and what to do: "rolls.txt:12: …".</summary>
public sealed class DataException(string file, int line, string message) : Exception($"{file}:{line}: {message}")
{
    public string File { get; } = file;

    /// <summary>Counted from 1.</summary>
    public int Line { get; } = line;
}
