using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Rollwright.Library.Recording;
using Rollwright.Library.Storage;

namespace Rollwright.Library;

/// <summary>
/// What is kept. Every change is one transaction and on the disk when its task is done; many may ask at once. What goes wrong
/// is a <see cref="LibraryException"/> with place and remedy, and nothing is half done.
/// </summary>
public sealed partial class TuneLibrary
{
    private readonly Func<LibraryContext> open;
    private readonly TimeProvider clock;

    private TuneLibrary(LibraryPlace place, Func<LibraryContext> open, TimeProvider clock)
    {
        Place = place;
        Recordings = place.File is { } file ? new RecordingFiles($"{file}.takes") : new RecordingTable();
        this.open = open;
        this.clock = clock;
    }

    public LibraryPlace Place { get; }

    internal IRecordings Recordings { get; }

    /// <summary>Opens a library, makes it where there is none, and brings an older one up to date.</summary>
    /// <exception cref="LibraryException">It cannot be opened, or a newer program made it.</exception>
    public static async Task<TuneLibrary> OpenAsync(LibraryPlace place, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(place);
        ArgumentNullException.ThrowIfNull(clock);
        var library = new TuneLibrary(place, Opener(place, mayBeNew: true), clock);
        await library.Do(async context =>
        {
            if (place.File is { } file && Path.GetDirectoryName(file) is { Length: > 0 } folder)
                Directory.CreateDirectory(folder);
            var known = context.Database.GetMigrations().ToHashSet(StringComparer.Ordinal);
            var applied = await context.Database.CanConnectAsync()
                ? await context.GetService<IHistoryRepository>().GetAppliedMigrationsAsync()
                : [];
            if (applied.Any(row => !known.Contains(row.MigrationId)))
                throw new LibraryException(
                    place.Name,
                    "a newer version of the program made this library",
                    "open it with that version; it was not touched"
                );
            if (applied.Count < known.Count)
                await Migrating.Run(context, place);
            return true;
        });
        return new(place, Opener(place, mayBeNew: false), clock);
    }

    /// <summary>Runs a question; its context is closed with it.</summary>
    internal async Task<T> Do<T>(Func<LibraryContext, Task<T>> ask)
    {
        try
        {
            await using var context = open();
            return await ask(context);
        }
        catch (Exception fault) when (Faults.IsTheirs(fault))
        {
            throw Faults.Explain(fault, Place);
        }
    }

    /// <summary>Runs a change within one transaction that takes its turn from the start.</summary>
    internal Task<T> Change<T>(Func<LibraryContext, Task<T>> change) =>
        Do(async context =>
        {
            await using var transaction = await context.Database.BeginTransactionAsync();
            var answer = await change(context);
            await transaction.CommitAsync();
            return answer;
        });

    private static Func<LibraryContext> Opener(LibraryPlace place, bool mayBeNew)
    {
        if (place.Connection is { } connection)
        {
            var server = PostgresContext.Options(connection);
            return () => new PostgresContext(server);
        }
        var file = SqliteContext.Options(place.File!, mayBeNew);
        return () => new SqliteContext(file);
    }
}
