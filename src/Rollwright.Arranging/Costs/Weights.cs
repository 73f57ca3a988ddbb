using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Costs;

/// <summary>Prices of the cost terms, in thousandths of a plain melody note left out: one column of <c>data/weights.txt</c>.</summary>
public sealed class Weights
{
    private static readonly ImmutableArray<string> Fixed = ["name", "unit", "meaning"];

    private static readonly Lazy<ImmutableDictionary<string, Weights>> BuiltIn = new(() =>
        Parse("weights.txt", BuiltInData.Text("weights.txt"))
    );

    private readonly ImmutableArray<int> values;

    private Weights(ImmutableArray<int> values) => this.values = values;

    /// <summary>The columns of <c>data/weights.txt</c> by name.</summary>
    public static ImmutableDictionary<string, Weights> Columns => BuiltIn.Value;

    public static Weights Roll => Columns["roll"];

    public int this[Term term] => values[(int)term];

    public Weights With(Term term, int value) => new(values.SetItem((int)term, value));

    /// <exception cref="DataException">A row is wrong, stands twice or is missing.</exception>
    public static ImmutableDictionary<string, Weights> Parse(string file, string text)
    {
        var table = DataTable.Parse(file, text, [.. Fixed]);
        var columns = table.Columns.Except(Fixed).ToArray();
        var read = columns.ToDictionary(name => name, _ => new int?[Enum.GetValues<Term>().Length]);
        foreach (var row in table.Rows)
        {
            var term = TermNames.Find(row["name"]) ?? throw row.Wrong($"no price is called '{row["name"]}'");
            foreach (var column in columns)
            {
                ref var value = ref read[column][(int)term];
                if (value is not null)
                    throw row.Wrong($"'{row["name"]}' stands twice");
                value = row.Whole(column);
            }
        }
        foreach (var term in Enum.GetValues<Term>())
        {
            if (columns.Any(column => read[column][(int)term] is null))
                throw new DataException(file, 1, $"the row '{TermNames.Of(term)}' is missing");
        }
        return read.ToImmutableDictionary(
            pair => pair.Key,
            pair => new Weights([.. pair.Value.Select(value => value!.Value)])
        );
    }
}
