using System.Collections.Immutable;
using Rollwright.Banjo.Licks;

namespace Rollwright.Web.State.Licks;

/// <summary>A person's own licks, and the names of those that they do not want to be offered.</summary>
public interface ILickShelf
{
    /// <summary>Says how long their own licks are kept, in a sentence.</summary>
    string Words { get; }

    /// <summary>Their own licks in the order in which they came, and the names that were set aside.</summary>
    Task<(ImmutableArray<Lick> Own, ImmutableHashSet<string> SetAside)> ReadAsync();

    /// <summary>Keeps one more of their own; it has no faults.</summary>
    Task AddAsync(Lick lick);

    /// <summary>A lick is not offered any more.</summary>
    Task SetAsideAsync(string lick);

    /// <summary>All licks are offered again.</summary>
    Task BringBackAsync();
}
