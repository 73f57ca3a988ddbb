using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library;

/// <summary>
/// What is kept. Every change is one transaction and on the disk when its task is done; many may ask at once. What goes wrong
/// is a <see cref="LibraryException"/> with place and remedy, and nothing is half done.
/// </summary>
public sealed class TuneLibrary
{
    private readonly Func<LibraryContext> open;
    private readonly TimeProvider clock;

    private TuneLibrary(LibraryPlace place, Func<LibraryContext> open, TimeProvider clock)
    {
        Place = place;
        this.open = open;
        this.clock = clock;
    }

    public LibraryPlace Place { get; }

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

    /// <summary>The newest first.</summary>
    /// <param name="most">How many at most.</param>
    public Task<IReadOnlyList<KeptTune>> TunesAsync(int most) =>
        Do<IReadOnlyList<KeptTune>>(async context =>
            [
                .. (
                    await context.Tunes.AsNoTracking().OrderByDescending(row => row.Number).Take(most).ToListAsync()
                ).Select(Mapping.Kept),
            ]
        );

    public Task<int> CountAsync() => Do(context => context.Tunes.CountAsync());

    /// <summary>Null where there is none.</summary>
    public Task<KeptTune?> TuneAsync(Guid id) =>
        Do(async context =>
            await context.Tunes.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id) is { } row
                ? Mapping.Kept(row)
                : null
        );

    /// <summary>
    /// Tunes whose title, composer, key, metre, tags or words of the text hold all of the words, or words that begin so,
    /// whatever their accents; the best first.
    /// </summary>
    /// <param name="words">What is looked for; nothing finds nothing.</param>
    /// <param name="most">How many at most.</param>
    public Task<IReadOnlyList<KeptTune>> FindAsync(string words, int most) =>
        Folded.Words(words) is { Count: > 0 } folded
            ? Do<IReadOnlyList<KeptTune>>(async context =>
                [.. (await context.Matching(folded, most).AsNoTracking().ToListAsync()).Select(Mapping.Kept)]
            )
            : Task.FromResult<IReadOnlyList<KeptTune>>([]);

    /// <summary>Of these fingerprints, the tunes that are kept already.</summary>
    public Task<IReadOnlyList<KeptTune>> WithFingerprintsAsync(IReadOnlyCollection<string> fingerprints) =>
        Do<IReadOnlyList<KeptTune>>(async context =>
            [
                .. (
                    await context
                        .Tunes.AsNoTracking()
                        .Where(row => fingerprints.Contains(row.Fingerprint))
                        .ToListAsync()
                ).Select(Mapping.Kept),
            ]
        );

    /// <summary>Keeps tunes, all or none.</summary>
    public Task AddAsync(IReadOnlyCollection<KeptTune> tunes) =>
        Change(async context =>
        {
            context.Tunes.AddRange(tunes.Select(Mapping.Row));
            await context.SaveChangesAsync();
            return true;
        });

    /// <summary>A new break of a tune with its first revision; the break that this draft began already, where it did.</summary>
    public Task<KeptBreak> BeginAsync(Guid tune, string title, Draft first) =>
        Change(async context =>
        {
            var now = clock.GetUtcNow();
            if (await KeptAs(context, first) is { } kept)
                return Mapping.Kept(await context.Breaks.AsNoTracking().SingleAsync(row => row.Id == kept.Break));
            var row = new BreakRow
            {
                Id = Guid.CreateVersion7(now),
                Tune = tune,
                Title = title,
                Current = 1,
                ChangedAt = now,
            };
            context.Breaks.Add(row);
            context.Revisions.Add(
                Mapping.Row(row.Id, new(1, null, now, first.By, first.Words, first.Wishes, first.Break, first.Id))
            );
            await context.SaveChangesAsync();
            return Mapping.Kept(row);
        });

    /// <summary>Those of a tune, or all, the last changed first.</summary>
    public Task<IReadOnlyList<KeptBreak>> BreaksAsync(Guid? tune = null, int most = 1_000) =>
        Do<IReadOnlyList<KeptBreak>>(async context =>
            [
                .. (
                    await context
                        .Breaks.AsNoTracking()
                        .Where(row => tune == null || row.Tune == tune)
                        .OrderByDescending(row => row.ChangedAt)
                        .ThenByDescending(row => row.Number)
                        .Take(most)
                        .ToListAsync()
                ).Select(Mapping.Kept),
            ]
        );

    /// <summary>Null where there is none.</summary>
    public Task<KeptBreak?> BreakAsync(Guid id) =>
        Do(async context =>
            await context.Breaks.AsNoTracking().SingleOrDefaultAsync(row => row.Id == id) is { } row
                ? Mapping.Kept(row)
                : null
        );

    /// <summary>All of a break, the oldest first; those that were gone back from are among them.</summary>
    public Task<IReadOnlyList<Revision>> RevisionsAsync(Guid id) =>
        Do<IReadOnlyList<Revision>>(async context =>
            [
                .. (
                    await context
                        .Revisions.AsNoTracking()
                        .Where(row => row.Break == id)
                        .OrderBy(row => row.Number)
                        .ToListAsync()
                ).Select(Mapping.Kept),
            ]
        );

    /// <summary>The revision that is shown; null where there is no such break.</summary>
    public Task<Revision?> CurrentAsync(Guid id) => Do(context => CurrentOf(context, id));

    /// <summary>
    /// Adds a revision after the one that it was made of; where another came between, that one is the answer. A draft that is
    /// kept already is the revision that it became, so that whoever did not hear the answer may ask again.
    /// </summary>
    /// <exception cref="LibraryException">There is no such break, or the library cannot take it now.</exception>
    public Task<SaveOutcome> SaveAsync(Guid id, int basedOn, Draft draft) =>
        Change<SaveOutcome>(async context =>
        {
            var now = clock.GetUtcNow();
            var last = await context.Revisions.Where(row => row.Break == id).MaxAsync(row => (int?)row.Number);
            if (last is not { } number)
                throw Missing();
            if (await KeptAs(context, draft) is { } kept)
                return new SaveOutcome.Saved(Mapping.Kept(kept));
            // The row says who comes second, also of two programs.
            var moved = await context
                .Breaks.Where(row => row.Id == id && row.Current == basedOn)
                .ExecuteUpdateAsync(set =>
                    set.SetProperty(row => row.Current, number + 1).SetProperty(row => row.ChangedAt, now)
                );
            if (moved == 0)
                // On a server the same draft, sent twice at once, may have come in while this one waited for the row.
                return await KeptAs(context, draft) is { } twin
                    ? new SaveOutcome.Saved(Mapping.Kept(twin))
                    : new SaveOutcome.Conflict(await CurrentOf(context, id) ?? throw Missing());
            var revision = new Revision(
                number + 1,
                basedOn,
                now,
                draft.By,
                draft.Words,
                draft.Wishes,
                draft.Break,
                draft.Id
            );
            context.Revisions.Add(Mapping.Row(id, revision));
            await context.SaveChangesAsync();
            return new SaveOutcome.Saved(revision);
        });

    /// <summary>Goes back to what the shown revision was made of; null where it is the first.</summary>
    public Task<Revision?> UndoAsync(Guid id) =>
        Move(
            id,
            (context, now) => context.Revisions.SingleOrDefaultAsync(row => row.Break == id && row.Number == now.Parent)
        );

    /// <summary>Goes on to what was last made of the shown revision; null where nothing was.</summary>
    public Task<Revision?> RedoAsync(Guid id) =>
        Move(
            id,
            (context, now) =>
                context
                    .Revisions.Where(row => row.Break == id && row.Parent == now.Number)
                    .OrderByDescending(row => row.Number)
                    .FirstOrDefaultAsync()
        );

    /// <summary>
    /// Shows another revision that is kept; where another came between, that one is the answer and nothing is changed. Where it is
    /// shown already, it stays so.
    /// </summary>
    public Task<SaveOutcome> GoAsync(Guid id, int basedOn, int to) =>
        Change<SaveOutcome>(async context =>
        {
            var now = clock.GetUtcNow();
            var next =
                await context.Revisions.SingleOrDefaultAsync(row => row.Break == id && row.Number == to)
                ?? throw Missing();
            var moved = await context
                .Breaks.Where(row => row.Id == id && row.Current == basedOn)
                .ExecuteUpdateAsync(set =>
                    set.SetProperty(row => row.Current, to).SetProperty(row => row.ChangedAt, now)
                );
            if (moved == 1)
                return new SaveOutcome.Saved(Mapping.Kept(next));
            var shown = await CurrentOf(context, id) ?? throw Missing();
            return shown.Number == to ? new SaveOutcome.Saved(shown) : new SaveOutcome.Conflict(shown);
        });

    /// <summary>Adds what was practised to what is kept of that day and phrase.</summary>
    public Task PractiseAsync(Guid id, KeptPractice more) =>
        Change(async context =>
        {
            var row = await context.Practice.FindAsync(id, more.Day, more.Phrase);
            if (row is null)
                context.Practice.Add(
                    row = new()
                    {
                        Break = id,
                        Day = more.Day,
                        Phrase = more.Phrase,
                    }
                );
            row.Tempo = Math.Max(row.Tempo, more.Tempo);
            row.Clean += more.Clean;
            row.Spoiled += more.Spoiled;
            await context.SaveChangesAsync();
            return true;
        });

    public Task<IReadOnlyList<KeptPractice>> PracticeAsync(Guid id) =>
        Do<IReadOnlyList<KeptPractice>>(async context =>
            [
                .. (
                    await context
                        .Practice.AsNoTracking()
                        .Where(row => row.Break == id)
                        .OrderBy(row => row.Day)
                        .ThenBy(row => row.Phrase)
                        .ToListAsync()
                ).Select(Mapping.Kept),
            ]
        );

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

    private Task<Revision?> Move(Guid id, Func<LibraryContext, RevisionRow, Task<RevisionRow?>> where) =>
        Change(async context =>
        {
            var row = await context.Breaks.SingleOrDefaultAsync(row => row.Id == id) ?? throw Missing();
            var now = await context.Revisions.SingleAsync(revision =>
                revision.Break == id && revision.Number == row.Current
            );
            if (await where(context, now) is not { } next)
                return null;
            row.Current = next.Number;
            row.ChangedAt = clock.GetUtcNow();
            await context.SaveChangesAsync();
            return Mapping.Kept(next);
        });

    private static Task<RevisionRow?> KeptAs(LibraryContext context, Draft draft) =>
        context.Revisions.AsNoTracking().SingleOrDefaultAsync(row => row.Draft == draft.Id);

    private static async Task<Revision?> CurrentOf(LibraryContext context, Guid id) =>
        await context
            .Breaks.AsNoTracking()
            .Where(row => row.Id == id)
            .Join(
                context.Revisions.AsNoTracking(),
                row => new { Break = row.Id, Number = row.Current },
                revision => new { revision.Break, revision.Number },
                (_, revision) => revision
            )
            .SingleOrDefaultAsync()
            is { } row
            ? Mapping.Kept(row)
            : null;

    private LibraryException Missing() =>
        new(Place.Name, "there is no such break in it", "it may lie in another library, or was never kept");

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
