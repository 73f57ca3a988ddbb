using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Banjo.Licks;

/// <summary>The licks of <c>data/licks/</c>, in order of file and row.</summary>
public static class LickTable
{
    private static readonly Lazy<ImmutableArray<Lick>> BuiltIn = new(() =>
        [.. BuiltInData.In("licks").SelectMany(file => Parse(file, BuiltInData.Text(file)))]
    );

    public static ImmutableArray<Lick> All => BuiltIn.Value;

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<Lick> Parse(string file, string text) =>
        [.. DataTable.Parse(file, text, LickRow.Needed).Rows.Select(LickRow.Read)];
}
