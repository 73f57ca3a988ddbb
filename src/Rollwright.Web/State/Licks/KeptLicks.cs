using System.Collections.Immutable;
using Rollwright.Banjo.Licks;
using Rollwright.Library;
using Rollwright.Library.Kept;

namespace Rollwright.Web.State.Licks;

/// <summary>
/// Keeps in the library what someone set aside, and their own licks. While the library does not answer, all of it is kept as
/// long as the page is open.
/// </summary>
public sealed class KeptLicks(TuneLibrary library, string who) : ILickShelf
{
    private readonly VisitLicks visit = new();

    public string Words { get; private set; } = "It is kept in your library.";

    public async Task<(ImmutableArray<Lick> Own, ImmutableHashSet<string> SetAside)> ReadAsync()
    {
        var (own, aside) = await visit.ReadAsync();
        try
        {
            var kept = await library.ListLicksAsync();
            var names = kept.Select(lick => lick.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
            var (bank, _) = KeptLick.BankOf(kept, library.Place.Name);
            return (
                [.. bank.Licks.Where(lick => names.Contains(lick.Name)), .. own],
                aside.Union(await library.SetAsideLicksAsync(who))
            );
        }
        catch (LibraryException)
        {
            // The line about keeping says what is wrong; the licks are offered meanwhile.
            return (own, aside);
        }
    }

    public async Task AddAsync(Lick lick)
    {
        try
        {
            await library.AddLickAsync(lick);
        }
        catch (LibraryException fault)
        {
            await visit.AddAsync(lick);
            Words = $"{visit.Words} The library did not take it: {fault.What}.";
        }
    }

    public async Task SetAsideAsync(string lick)
    {
        try
        {
            await library.SetLickAsideAsync(who, lick);
        }
        catch (LibraryException)
        {
            await visit.SetAsideAsync(lick);
        }
    }

    public async Task BringBackAsync()
    {
        await visit.BringBackAsync();
        try
        {
            await library.BringLicksBackAsync(who);
        }
        catch (LibraryException)
        {
            // They stay aside until the library answers; the line about keeping says why.
        }
    }
}
