using Microsoft.EntityFrameworkCore;

namespace Rollwright.Library.Storage;

/// <summary>Brings the tables of a library up to date.</summary>
internal static class Migrating
{
    /// <summary>
    /// On SQLite, the framework keeps its lock as a row of a table, which stays for ever where the program was killed in the middle:
    /// the next one would wait without end. So one program at a time holds a file beside the library, and whoever has it may take
    /// an old row away.
    /// </summary>
    public static async Task Run(LibraryContext context, LibraryPlace place)
    {
        if (place.File is not { } file)
        {
            await using var alone = await context.Database.CanConnectAsync() ? await ServerLock.Take(context) : null;
            await context.Database.MigrateAsync();
            return;
        }
        var beside = file + ".opening";
        await using (await Hold(beside))
        {
            await context.Database.ExecuteSqlRawAsync("DROP TABLE IF EXISTS \"__EFMigrationsLock\"");
            await context.Database.MigrateAsync();
        }
    }

    // Another program may be at it just now; it needs well under a second.
    private static async Task<FileStream> Hold(string path)
    {
        const int Tries = 50;
        for (var left = Tries; ; left--)
        {
            try
            {
                return new(
                    path,
                    FileMode.OpenOrCreate,
                    FileAccess.ReadWrite,
                    FileShare.None,
                    1,
                    FileOptions.DeleteOnClose
                );
            }
            catch (IOException) when (left > 0)
            {
                await Task.Delay(100);
            }
        }
    }
}
