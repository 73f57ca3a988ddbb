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
    private readonly Func<Scope, LibraryContext> open;
    private readonly TimeProvider clock;

    private TuneLibrary(LibraryPlace place, Func<Scope, LibraryContext> open, TimeProvider clock, string owner = "")
    {
        Place = place;
        Owner = owner;
        Recordings = place.File is { } file ? new RecordingFiles($"{file}.takes") : new RecordingTable();
        this.open = open;
        this.clock = clock;
    }

    public LibraryPlace Place { get; }

    /// <summary>Whose things are seen and kept here; empty where one person has it to themselves.</summary>
    public string Owner { get; }

    internal IRecordings Recordings { get; }

    /// <summary>The same library as one of several people sees it: their own things, and nobody else's.</summary>
    /// <param name="owner">Their name for ever; not empty.</param>
    public TuneLibrary For(string owner)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(owner);
        return new(Place, open, clock, owner);
    }

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
    internal Task<T> Do<T>(Func<LibraryContext, Task<T>> ask) => Ask(new(Owner), ask);

    private Task<T> Ask<T>(Scope scope, Func<LibraryContext, Task<T>> ask) =>
        ToldAsync(async () =>
        {
            await using var context = open(scope);
            return await ask(context);
        });

    /// <summary>For rooms with tables of their own in the same database: what it complains of is told as the library's own is.</summary>
    public async Task<T> ToldAsync<T>(Func<Task<T>> ask)
    {
        ArgumentNullException.ThrowIfNull(ask);
        try
        {
            return await ask();
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

    /// <summary>As <see cref="Do"/>, over what everybody has where the library is not one person's.</summary>
    internal Task<T> DoWhole<T>(Func<LibraryContext, Task<T>> ask) =>
        Owner.Length > 0 ? Do(ask) : Ask(new("", SeesAll: true), ask);

    private static Func<Scope, LibraryContext> Opener(LibraryPlace place, bool mayBeNew)
    {
        if (place.Connection is { } connection)
        {
            var server = PostgresContext.Options(connection);
            return scope => new PostgresContext(server, scope);
        }
        var file = SqliteContext.Options(place.File!, mayBeNew);
        return scope => new SqliteContext(file, scope);
    }
}
