namespace Rollwright.Library;

/// <summary>Where a library is kept: a SQLite file, or a PostgreSQL database.</summary>
/// <param name="File">Path of the file; null where it is a server.</param>
/// <param name="Connection">Connection string of the server; null where it is a file.</param>
public sealed record LibraryPlace(string? File, string? Connection)
{
    /// <summary>The environment variable that moves the library of whoever does not say where it is.</summary>
    public const string Variable = "ROLLWRIGHT_LIBRARY";

    public bool IsServer => Connection is not null;

    /// <summary>The file, or the server without its password.</summary>
    public string Name =>
        File
        ?? string.Join(
            ';',
            Connection!
                .Split(';', StringSplitOptions.RemoveEmptyEntries)
                .Where(part => !part.TrimStart().StartsWith("Password", StringComparison.OrdinalIgnoreCase))
        );

    /// <summary>
    /// A path, or a connection string such as "Host=…;Database=…;Username=…"; without either what the environment variable
    /// says; else library.db in the user's data folder (XDG Base Directory Specification on Linux).
    /// </summary>
    public static LibraryPlace Of(string? asked)
    {
        var said = asked ?? Environment.GetEnvironmentVariable(Variable);
        if (string.IsNullOrWhiteSpace(said))
            return new(
                Path.Combine(
                    Environment.GetFolderPath(
                        Environment.SpecialFolder.LocalApplicationData,
                        Environment.SpecialFolderOption.DoNotVerify
                    ),
                    "rollwright",
                    "library.db"
                ),
                null
            );
        return said.Contains("Host=", StringComparison.OrdinalIgnoreCase)
            ? new(null, said)
            : new(Path.GetFullPath(said), null);
    }
}
