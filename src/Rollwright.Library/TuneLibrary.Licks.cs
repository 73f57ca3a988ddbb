using Microsoft.EntityFrameworkCore;
using Rollwright.Banjo.Licks;
using Rollwright.Library.Kept;
using Rollwright.Library.Storage;

namespace Rollwright.Library;

// A player's own licks.
public sealed partial class TuneLibrary
{
    /// <summary>Keeps a lick of one's own.</summary>
    /// <exception cref="LibraryException">Another is called so, or it could not be read back; nothing is kept.</exception>
    public Task<KeptLick> AddLickAsync(Lick lick)
    {
        ArgumentNullException.ThrowIfNull(lick);
        return Change(async context =>
        {
            var now = clock.GetUtcNow();
            var kept = new KeptLick(Guid.CreateVersion7(now), lick.Name, KeptLick.RowOf(lick), now);
            if (KeptLick.BankOf([kept], Place.Name).Faults is [var fault, ..])
                throw new LibraryException(Place.Name, fault.Message, "change the lick; nothing was kept");
            var names = await context.Licks.Select(row => row.Name).ToListAsync();
            if (names.Contains(kept.Name, StringComparer.OrdinalIgnoreCase))
                throw new LibraryException(
                    Place.Name,
                    $"a lick is called '{kept.Name}' already",
                    "give it another name"
                );
            context.Licks.Add(Mapping.Row(kept));
            await context.SaveChangesAsync();
            return kept;
        });
    }

    /// <summary>Takes over licks of another's by their names; those whose names one has already stay as they are.</summary>
    public async Task CopyLicksAsync(TuneLibrary from, IReadOnlyCollection<string> names)
    {
        ArgumentNullException.ThrowIfNull(from);
        if (names.Count == 0)
            return;
        var own = (await ListLicksAsync()).Select(lick => lick.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var theirs = (await from.ListLicksAsync()).Where(lick => names.Contains(lick.Name)).ToList();
        var (bank, _) = KeptLick.BankOf(theirs, Place.Name);
        foreach (var lick in bank.Licks.Where(lick => theirs.Exists(kept => kept.Name == lick.Name)))
        {
            if (own.Add(lick.Name))
                await AddLickAsync(lick);
        }
    }

    /// <summary>In the order of their coming.</summary>
    public Task<IReadOnlyList<KeptLick>> ListLicksAsync() =>
        Do<IReadOnlyList<KeptLick>>(async context =>
            [.. (await context.Licks.AsNoTracking().OrderBy(row => row.Number).ToListAsync()).Select(Mapping.Kept)]
        );

    /// <returns>Whether it was there.</returns>
    public Task<bool> RemoveLickAsync(Guid id) =>
        Change(async context => await context.Licks.Where(row => row.Id == id).ExecuteDeleteAsync() > 0);
}
