using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Breaks;
using Rollwright.Library.Lessons;
using Rollwright.Library.Licks;
using Rollwright.Library.Places;
using Rollwright.Library.Practice;
using Rollwright.Library.Searching;
using Rollwright.Library.Settings;
using Rollwright.Library.Storing;
using Rollwright.Library.Storing.Rows;
using Rollwright.Library.Takes;
using Rollwright.Library.Tunes;

namespace Rollwright.Library;

/// <summary>
/// A library in a database. It opens with its first call, and again by itself where the database was gone for a while; a library of
/// an earlier version is brought up to date then, one of a newer version is left as it is and refused.
/// </summary>
public sealed class KeptLibrary : ILibrary, IAsyncDisposable
{
    private readonly Search search;

    /// <param name="place">Where it is kept.</param>
    /// <param name="clock">What time it is; null for the system's clock.</param>
    /// <param name="mayCreate">Whether an empty library is made where there is none. Of a file; a server's database must be there.</param>
    public KeptLibrary(LibraryPlace place, TimeProvider? clock = null, bool mayCreate = true)
    {
        Place = place;
        Store = new(DatabaseEngine.Of(place), clock ?? TimeProvider.System, mayCreate);
        search = new(Store);
        Tunes = new TuneShelf(Store);
        Breaks = new BreakShelf(Store);
        Licks = new LickShelf(Store);
        Lessons = new LessonShelf(Store);
        Takes = new TakeShelf(Store);
        Practice = new PracticeShelf(Store);
        Settings = new SettingShelf(Store);
    }

    public LibraryPlace Place { get; }

    public ITunes Tunes { get; }

    public IBreaks Breaks { get; }

    public ILicks Licks { get; }

    public ILessons Lessons { get; }

    public ITakes Takes { get; }

    public IPractice Practice { get; }

    public ISettings Settings { get; }

    internal Store Store { get; }

    public Task<ImmutableArray<Found>> Search(SearchRequest request, CancellationToken cancel = default) =>
        search.Run(request, cancel);

    public Task<ImmutableSortedDictionary<ItemKind, int>> Counts(CancellationToken cancel = default) =>
        Store.Run(
            async context =>
            {
                var counted = await context
                    .Cards.Where(card => !card.Aside)
                    .GroupBy(card => card.Kind)
                    .Select(kind => new { kind.Key, Count = kind.Count() })
                    .ToListAsync(cancel);
                return Enum.GetValues<ItemKind>()
                    .ToImmutableSortedDictionary(
                        kind => kind,
                        kind => counted.Find(one => one.Key == kind)?.Count ?? 0
                    );
            },
            cancel
        );

    public Task<ImmutableSortedDictionary<string, int>> Tags(CancellationToken cancel = default) =>
        Store.Run(
            async context =>
                (await context.Cards.Where(card => !card.Aside).Select(card => card.Tags).ToListAsync(cancel))
                    .SelectMany(tags => tags)
                    .CountBy(tag => tag, StringComparer.Ordinal)
                    .ToImmutableSortedDictionary(StringComparer.Ordinal),
            cancel
        );

    public Task Tag(Guid id, TagSet tags, CancellationToken cancel = default) =>
        Change(
            id,
            (row, card) =>
            {
                row.Tags = [.. tags];
                card.Tags = [.. tags];
            },
            cancel
        );

    public Task PutAside(Guid id, CancellationToken cancel = default) => Put(id, Store.Now, cancel);

    public Task BringBack(Guid id, CancellationToken cancel = default) => Put(id, null, cancel);

    public Task Inspect(CancellationToken cancel = default) =>
        Store.Run(
            async context =>
            {
                if (await Store.Engine.Damage(context, cancel) is { Length: > 0 } damage)
                    throw new LibraryException(
                        LibraryFault.Broken,
                        Place.Words,
                        $"the library is damaged: {damage}",
                        "restore a backup into a new place"
                    );
            },
            cancel
        );

    public ValueTask DisposeAsync() => Store.DisposeAsync();

    private Task Put(Guid id, DateTimeOffset? aside, CancellationToken cancel) =>
        Change(
            id,
            (row, card) =>
            {
                row.AsideAt = aside;
                card.Aside = aside is not null;
            },
            cancel
        );

    // Labels are not what people change against each other: the version stays, and the last one said holds.
    private Task Change(Guid id, Action<ItemRow, CardRow> change, CancellationToken cancel) =>
        Store.Run(
            async context =>
            {
                for (var tries = 1; ; tries++)
                {
                    var card = await context.Cards.SingleOrDefaultAsync(one => one.ItemId == id, cancel);
                    if (card is null)
                        throw Versioned.NotHere(Store, id);
                    change(await RowOf(context, card, cancel), card);
                    try
                    {
                        await context.SaveChangesAsync(cancel);
                        return;
                    }
                    catch (DbUpdateConcurrencyException) when (tries < 20)
                    {
                        context.ChangeTracker.Clear();
                    }
                }
            },
            cancel
        );

    private async Task<ItemRow> RowOf(LibraryContext context, CardRow card, CancellationToken cancel) =>
        card.Kind switch
        {
            ItemKind.Tune => await Versioned.Row<TuneRow>(Store, context, card.ItemId, cancel),
            ItemKind.Break => await Versioned.Row<BreakRow>(Store, context, card.ItemId, cancel),
            ItemKind.Lick => await Versioned.Row<LickRow>(Store, context, card.ItemId, cancel),
            ItemKind.Lesson => await Versioned.Row<LessonRow>(Store, context, card.ItemId, cancel),
            _ => await Versioned.Row<TakeRow>(Store, context, card.ItemId, cancel),
        };
}
