using Rollwright.Banjo.Data;

namespace Rollwright.Listening;

/// <summary>A data file of named numbers, each explained where it stands.</summary>
/// <param name="file">Its name in <c>data/</c>.</param>
internal sealed class NumberTable(string file)
{
    private readonly Lazy<Dictionary<string, double>> values = new(() =>
        DataTable
            .Parse(file, BuiltInData.Text(file), "name", "value", "unit", "source", "meaning")
            .Rows.ToDictionary(row => row["name"], row => row.Number("value"), StringComparer.Ordinal)
    );

    public double this[string name] => values.Value[name];
}
