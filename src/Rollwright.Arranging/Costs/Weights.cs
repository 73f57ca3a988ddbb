using System.Collections.Immutable;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Costs;

/// <summary>Prices of the cost terms by name, in thousandths of a plain melody note left out.</summary>
public sealed class Weights
{
    private readonly ImmutableDictionary<string, int> values;

    private Weights(ImmutableDictionary<string, int> values) => this.values = values;

    /// <summary>The roll style, from <c>data/weights.txt</c>.</summary>
    public static Weights Roll { get; } = Parse("weights.txt", BuiltInData.Text("weights.txt"));

    /// <summary>The price of a term; a name that the table lacks is a fault of the program.</summary>
    public int this[string name] =>
        values.TryGetValue(name, out var value)
            ? value
            : throw new KeyNotFoundException($"The table of weights has no row '{name}'.");

    public Weights With(string name, int value) => new(values.SetItem(name, value));

    /// <exception cref="DataException">A row is wrong.</exception>
    public static Weights Parse(string file, string text)
    {
        var read = ImmutableDictionary.CreateBuilder<string, int>(StringComparer.Ordinal);
        foreach (var row in DataTable.Parse(file, text, "name", "weight", "unit", "meaning").Rows)
        {
            if (!read.TryAdd(row["name"], row.Whole("weight")))
                throw row.Wrong($"'{row["name"]}' stands twice");
        }
        return new(read.ToImmutable());
    }
}
