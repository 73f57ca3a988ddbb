using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Banjo.Tunings;

/// <summary>The tunings of <c>data/tunings.txt</c>.</summary>
public static class TuningTable
{
    private static readonly Lazy<ImmutableArray<Tuning>> BuiltIn = new(() =>
        Parse("tunings.txt", BuiltInData.Text("tunings.txt"))
    );

    public static ImmutableArray<Tuning> All => BuiltIn.Value;

    public static Tuning OpenG => All[0];

    /// <summary>The tuning of that id; null where there is none.</summary>
    public static Tuning? Find(string id) => All.FirstOrDefault(tuning => tuning.Id == id);

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<Tuning> Parse(string file, string text)
    {
        var tunings = ImmutableArray.CreateBuilder<Tuning>();
        foreach (var row in DataTable.Parse(file, text, "id", "name", "midi", "spelling", "source").Rows)
        {
            var open = ImmutableArray.CreateBuilder<int>();
            foreach (var cell in row["midi"].Split(' ', StringSplitOptions.RemoveEmptyEntries))
            {
                if (!int.TryParse(cell, out var key) || key is < 24 or > 96)
                    throw row.Wrong($"midi '{cell}' is not a key from 24 to 96");
                open.Add(key);
            }
            if (open.Count != Neck.Strings)
                throw row.Wrong($"a tuning has five strings, not {open.Count}");
            tunings.Add(new(row["id"], row["name"], open.ToImmutable(), row["spelling"]));
        }
        return tunings.ToImmutable();
    }
}
