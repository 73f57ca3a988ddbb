using System.Collections.Immutable;
using Microsoft.EntityFrameworkCore;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library;

// Tunes: kept, found, tagged.
public sealed partial class TuneLibrary
{
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

    /// <summary>As <see cref="FindAsync"/>, each tune with its breaks, the last changed first.</summary>
    public async Task<IReadOnlyList<FoundTune>> SearchAsync(string words, int most)
    {
        var tunes = await FindAsync(words, most);
        if (tunes.Count == 0)
            return [];
        var ids = tunes.Select(tune => tune.Id).ToList();
        var breaks = await Do(async context =>
            (
                await context
                    .Breaks.AsNoTracking()
                    .Where(row => ids.Contains(row.Tune))
                    .OrderByDescending(row => row.ChangedAt)
                    .ToListAsync()
            )
                .Select(Mapping.Kept)
                .ToLookup(kept => kept.Tune)
        );
        return [.. tunes.Select(tune => new FoundTune(tune, [.. breaks[tune.Id]]))];
    }

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

    /// <summary>Puts a tag on a tune; one that it has already stays once.</summary>
    /// <exception cref="LibraryException">There is no such tune, or the library cannot take it now.</exception>
    public Task<KeptTune> TagAsync(Guid tune, string tag)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(tag);
        var word = string.Join(' ', tag.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return Retag(tune, tags => tags.Contains(word, StringComparer.OrdinalIgnoreCase) ? tags : tags.Add(word));
    }

    /// <summary>Takes a tag off a tune, whatever its capitals; where it has none of that name, nothing changes.</summary>
    /// <exception cref="LibraryException">There is no such tune, or the library cannot take it now.</exception>
    public Task<KeptTune> UntagAsync(Guid tune, string tag) =>
        Retag(tune, tags => tags.RemoveAll(kept => kept.Equals(tag.Trim(), StringComparison.OrdinalIgnoreCase)));

    private Task<KeptTune> Retag(Guid tune, Func<ImmutableArray<string>, ImmutableArray<string>> change) =>
        Change(async context =>
        {
            var row = await context.Tunes.SingleOrDefaultAsync(row => row.Id == tune) ?? throw Missing("tune");
            var kept = Mapping.Kept(row);
            var changed = Mapping.Row(kept with { Tags = change(kept.Tags) });
            (row.Tags, row.SearchText) = (changed.Tags, changed.SearchText);
            await context.SaveChangesAsync();
            return Mapping.Kept(row);
        });
}
