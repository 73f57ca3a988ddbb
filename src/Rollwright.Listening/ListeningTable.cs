using Rollwright.Banjo.Data;

namespace Rollwright.Listening;

/// <summary>The values of <c>data/listening.txt</c>, where each is explained.</summary>
internal static class ListeningTable
{
    private static readonly Lazy<Dictionary<string, double>> Values = new(() =>
        DataTable
            .Parse("listening.txt", BuiltInData.Text("listening.txt"), "name", "value", "unit", "source", "meaning")
            .Rows.ToDictionary(row => row["name"], row => row.Number("value"), StringComparer.Ordinal)
    );

    public static double Of(string name) => Values.Value[name];
}
