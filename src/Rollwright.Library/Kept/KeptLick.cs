using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Licks;

namespace Rollwright.Library.Kept;

/// <summary>A lick of one's own, in the text form of docs/licks.md.</summary>
/// <param name="Id">Its name for ever.</param>
/// <param name="Name">What the hands do; no other kept lick has it.</param>
/// <param name="Row">A row under <see cref="LickRow.Head"/>.</param>
/// <param name="AddedAt">When it came.</param>
public sealed record KeptLick(Guid Id, string Name, string Row, DateTimeOffset AddedAt)
{
    internal static string RowOf(Lick lick) =>
        LickRow.Write(lick, LickRow.Head.Split('|', StringSplitOptions.TrimEntries));

    /// <summary>Kept licks as a file that every reader of licks takes.</summary>
    public static string FileOf(IEnumerable<KeptLick> licks) =>
        string.Concat(licks.Select(lick => lick.Row).Prepend(LickRow.Head).Select(line => line + "\n"));

    /// <summary>The program's licks and the kept ones.</summary>
    /// <param name="licks">The kept ones.</param>
    /// <param name="place">The name that faults carry.</param>
    public static (LickBank Bank, ImmutableArray<DataException> Faults) BankOf(
        IEnumerable<KeptLick> licks,
        string place
    ) => LickBank.BuiltIn.Read(place, FileOf(licks));
}
