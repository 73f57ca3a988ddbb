using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Rollwright.Library.Storage;

/// <summary>What databases complain of, in words that say what to do.</summary>
internal static class Faults
{
    /// <summary>Whether the database or the disk complains; else the fault is ours.</summary>
    public static bool IsTheirs(Exception fault) =>
        fault is SqliteException or NpgsqlException or IOException or UnauthorizedAccessException
        || (
            fault is DbUpdateException or InvalidOperationException
            && fault.InnerException is { } inner
            && IsTheirs(inner)
        );

    public static LibraryException Explain(Exception fault, LibraryPlace place) =>
        fault switch
        {
            SqliteException sqlite => new(place.Name, What(CodeOf(sqlite)), Remedy(CodeOf(sqlite)), sqlite),
            NpgsqlException server => new(
                place.Name,
                $"the database server does not answer as it should ({server.Message})",
                "see that it runs and that name and password are right; then try again",
                server
            ),
            UnauthorizedAccessException denied => new(
                place.Name,
                "the folder may not be written to",
                "choose another place with --library, or give yourself the right",
                denied
            ),
            IOException io => new(place.Name, io.Message, "make room or choose another place with --library", io),
            _ => Explain(fault.InnerException!, place),
        };

    // A file beside the library that has no room to grow (SQLITE_IOERR_SHMSIZE) is a full disk by another name.
    private static int CodeOf(SqliteException fault) =>
        fault.SqliteExtendedErrorCode == 4874 ? 13 : fault.SqliteErrorCode;

    // Result codes of SQLite (sqlite.org, 'Result and Error Codes').
    private static string What(int code) =>
        code switch
        {
            5 or 6 => "another program is writing to it",
            8 => "it may only be read",
            10 => "the disk gave an error",
            11 or 26 => "it is damaged, or is no library",
            13 => "the disk is full",
            14 => "it cannot be opened",
            _ => $"the database refused (code {code})",
        };

    private static string Remedy(int code) =>
        code switch
        {
            5 or 6 => "try again in a moment",
            8 => "give yourself the right to write to the file and its folder",
            11 or 26 => "restore the last backup into a new place; leave this file as it is",
            13 => "make room, then try again",
            14 => "see that the folder is there and may be written to, or choose another place with --library",
            _ => "try again; if it stays, restore the last backup",
        };
}
