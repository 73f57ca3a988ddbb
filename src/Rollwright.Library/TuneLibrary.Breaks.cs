using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library;

// Breaks, a row of revisions each.
public sealed partial class TuneLibrary
{
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

    private LibraryException Missing(string what = "break") =>
        new(Place.Name, $"there is no such {what} in it", "it may lie in another library, or was never kept");
}
