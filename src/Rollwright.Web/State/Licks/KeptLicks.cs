using System.Collections.Immutable;
using Rollwright.Banjo.Licks;
using Rollwright.Library;
using Rollwright.Library.Kept;

namespace Rollwright.Web.State.Licks;

/// <summary>
/// Keeps in the library what someone set aside, and their own licks as long as the page is open. While the library does not
/// answer, all of it is kept that long.
/// </summary>
public sealed class KeptLicks(TuneLibrary library, string who) : ILickShelf
{
    private readonly VisitLicks visit = new();

    public string Words => visit.Words;

    public async Task<(ImmutableArray<Lick> Own, ImmutableHashSet<string> SetAside)> ReadAsync()
    {
        var (own, aside) = await visit.ReadAsync();
        try
        {
            return (own, aside.Union(await library.SetAsideLicksAsync(who)));
        }
        catch (LibraryException)
        {
            // The line about keeping says what is wrong; the licks are offered meanwhile.
            return (own, aside);
        }
    }

    public Task AddAsync(Lick lick) => visit.AddAsync(lick);

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
