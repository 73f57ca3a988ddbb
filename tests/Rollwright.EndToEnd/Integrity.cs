using Microsoft.Data.Sqlite;

namespace Rollwright.EndToEnd;

/// <summary>SQLite's own check of a whole file.</summary>
internal static class Integrity
{
    public static string Of(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA integrity_check";
        return (string)command.ExecuteScalar()!;
    }
}
