using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Rollwright.Class.People;
using Rollwright.Class.Storage;
using Rollwright.Library;
using Rollwright.Library.Backups;
using Rollwright.Library.Storage;

namespace Rollwright.Class;

/// <summary>
/// A class that shares a library. Whoever asks says as whom; what they may not is a <see cref="NotForYouException"/>, what the
/// database cannot is a <see cref="LibraryException"/>, and nothing is half done.
/// </summary>
public sealed partial class Classroom
{
    private readonly TuneLibrary library;
    private readonly TimeProvider clock;
    private readonly DbContextOptions<ClassContext> options;

    private Classroom(TuneLibrary library, TimeProvider clock)
    {
        this.library = library;
        this.clock = clock;
        options = ClassContext.Options(library.Place.Connection!);
    }

    /// <summary>What belongs to everybody's library together; what is one person's is asked of <see cref="LibraryOf"/>.</summary>
    public LibraryPlace Place => library.Place;

    /// <summary>Opens the class of a library, and makes its tables where they are not there or older.</summary>
    /// <exception cref="LibraryException">It is a file, does not answer, or a newer program made it.</exception>
    public static async Task<Classroom> OpenAsync(TuneLibrary library, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(library);
        ArgumentNullException.ThrowIfNull(clock);
        if (!library.Place.IsServer)
            throw new LibraryException(
                library.Place.Name,
                "a class needs a PostgreSQL database, and this is a file",
                "give one with --library \"Host=…;Database=…;Username=…\"; 'rollwright library move' brings what is in the file"
            );
        var room = new Classroom(library, clock);
        await room.Ask(async context =>
        {
            await using var alone = await ServerLock.Take(context);
            var known = context.Database.GetMigrations().ToHashSet(StringComparer.Ordinal);
            var applied = await context.GetService<IHistoryRepository>().GetAppliedMigrationsAsync();
            if (applied.Any(row => !known.Contains(row.MigrationId)))
                throw new LibraryException(
                    library.Place.Name,
                    "a newer version of the program made this class",
                    "open it with that version; it was not touched"
                );
            if (applied.Count < known.Count)
                await context.Database.MigrateAsync();
            return true;
        });
        return room;
    }

    /// <summary>Whether a database has a class in it; a file has none.</summary>
    public static async Task<bool> IsThereAsync(TuneLibrary library)
    {
        ArgumentNullException.ThrowIfNull(library);
        return library.Place.IsServer
            && await library.ToldAsync(async () =>
            {
                await using var context = new ClassContext(ClassContext.Options(library.Place.Connection!));
                return (await context.GetService<IHistoryRepository>().GetAppliedMigrationsAsync()).Count > 0;
            });
    }

    /// <summary>The class in a backup of its library.</summary>
    public IBackupPart Backup => new ClassBackup(this);

    /// <summary>The library as this person sees it.</summary>
    public TuneLibrary LibraryOf(Person person)
    {
        ArgumentNullException.ThrowIfNull(person);
        return library.For(person.Id);
    }

    /// <summary>The tables for ASP.NET Core Identity and the keys; whoever opens it closes it.</summary>
    public ClassContext Open() => new(options);

    /// <summary>Whether the database answers.</summary>
    public Task<bool> AnswersAsync() =>
        Ask(async context =>
        {
            await context.Users.AnyAsync();
            return true;
        });

    internal Task<T> Ask<T>(Func<ClassContext, Task<T>> ask) =>
        library.ToldAsync(async () =>
        {
            await using var context = Open();
            return await ask(context);
        });

    internal Task<T> Change<T>(Func<ClassContext, Task<T>> change) =>
        Ask(async context =>
        {
            await using var transaction = await context.Database.BeginTransactionAsync();
            var answer = await change(context);
            await context.SaveChangesAsync();
            await transaction.CommitAsync();
            return answer;
        });
}
