using System.Collections.Immutable;
using Rollwright.Banjo.Licks;

namespace Rollwright.Web.State.Licks;

/// <summary>Which licks a person is offered: those of the program and their own, less what they filter out or set aside.</summary>
public sealed class LickChoice(ILickShelf shelf)
{
    private LickBank bank = LickBank.BuiltIn;

    /// <summary>What is looked for; empty for all.</summary>
    public LickSearch Filter { get; private set; } = new();

    /// <summary>Licks of the person's own.</summary>
    public ImmutableArray<Lick> Own { get; private set; } = [];

    /// <summary>Names of the licks that are not offered any more.</summary>
    public ImmutableHashSet<string> SetAside { get; private set; } = [];

    /// <summary>How long a lick of one's own is kept, in a sentence.</summary>
    public string Kept => shelf.Words;

    /// <summary>Another choice of licks is offered; called on any thread.</summary>
    public event EventHandler? Changed;

    /// <summary>Fetches what is kept of the person's.</summary>
    public async Task Load()
    {
        var before = (Own, SetAside);
        (Own, SetAside) = await shelf.ReadAsync();
        bank = Own.Aggregate(LickBank.BuiltIn, (all, lick) => all.Faults(lick).IsEmpty ? all.With(lick) : all);
        if (before != (Own, SetAside))
            Tell();
    }

    public bool Offers(Lick lick)
    {
        ArgumentNullException.ThrowIfNull(lick);
        return Filter.Matches(lick) && !SetAside.Contains(lick.Name);
    }

    public void Find(LickSearch filter)
    {
        Filter = filter;
        Tell();
    }

    public async Task PutAside(Lick lick)
    {
        ArgumentNullException.ThrowIfNull(lick);
        await shelf.SetAsideAsync(lick.Name);
        await Load();
    }

    public async Task BringBack()
    {
        await shelf.BringBackAsync();
        await Load();
    }

    /// <summary>What keeps a lick from being kept; empty for nothing.</summary>
    public ImmutableArray<LickFault> Faults(Lick lick) => bank.Faults(lick);

    /// <summary>Keeps a lick of the person's own, which has no faults; it is offered from now on.</summary>
    public async Task Add(Lick lick)
    {
        await shelf.AddAsync(lick);
        await Load();
    }

    private void Tell() => Changed?.Invoke(this, EventArgs.Empty);
}
