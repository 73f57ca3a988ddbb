using System.Collections.Immutable;
using Rollwright.Banjo.Data;
using Rollwright.Banjo.Tunings;
using Rollwright.Music.Chords;

namespace Rollwright.Banjo.Licks;

/// <summary>The licks of <c>data/licks.txt</c>.</summary>
public static class LickTable
{
    private static readonly Lazy<ImmutableArray<Lick>> BuiltIn = new(() =>
        Parse("licks.txt", BuiltInData.Text("licks.txt"))
    );

    public static ImmutableArray<Lick> All => BuiltIn.Value;

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<Lick> Parse(string file, string text)
    {
        var licks = ImmutableArray.CreateBuilder<Lick>();
        foreach (
            var row in DataTable.Parse(file, text, "name", "role", "tuning", "chord", "level", "beats", "tab").Rows
        )
        {
            if (!Enum.TryParse<LickRole>(row["role"], true, out var role))
                throw row.Wrong($"role '{row["role"]}' is neither fill nor tag");
            var tuning = TuningTable.Find(row["tuning"]) ?? throw row.Wrong($"no tuning is called '{row["tuning"]}'");
            var chord = Chord.Parse(row["chord"]) ?? throw row.Wrong($"'{row["chord"]}' is not a chord");
            if (row.Whole("level") is not (>= 1 and <= 5))
                throw row.Wrong("a level is 1 to 5");
            if (row["beats"] is not ("twos" or "threes"))
                throw row.Wrong($"beats '{row["beats"]}' is neither twos nor threes");
            try
            {
                licks.Add(
                    new(
                        row["name"],
                        role,
                        tuning,
                        chord,
                        row.Whole("level"),
                        row["beats"] == "threes",
                        LickTab.Read(row["tab"])
                    )
                );
            }
            catch (FormatException wrong)
            {
                throw row.Wrong(wrong.Message);
            }
        }
        return licks.ToImmutable();
    }
}
