using System.Collections.Immutable;
using Rollwright.Banjo.Licks;

namespace Rollwright.Web.State.Licks;

/// <summary>Keeps them as long as the page is open.</summary>
public sealed class VisitLicks : ILickShelf
{
    private ImmutableArray<Lick> own = [];
    private ImmutableHashSet<string> aside = [];

    public string Words => "It is kept until you close this page.";

    public Task<(ImmutableArray<Lick> Own, ImmutableHashSet<string> SetAside)> ReadAsync() =>
        Task.FromResult((own, aside));

    public Task AddAsync(Lick lick)
    {
        own = own.Add(lick);
        return Task.CompletedTask;
    }

    public Task SetAsideAsync(string lick)
    {
        aside = aside.Add(lick);
        return Task.CompletedTask;
    }

    public Task BringBackAsync()
    {
        aside = [];
        return Task.CompletedTask;
    }
}
