using Rollwright.Banjo.Data;

namespace Rollwright.Listening.Beside;

/// <summary>The values of <c>data/takes.txt</c>, where each is explained.</summary>
internal static class TakeTable
{
    private static readonly Lazy<Dictionary<string, double>> Values = new(() =>
        DataTable
            .Parse("takes.txt", BuiltInData.Text("takes.txt"), "name", "value", "unit", "source", "meaning")
            .Rows.ToDictionary(row => row["name"], row => row.Number("value"), StringComparer.Ordinal)
    );

    public static double Of(string name) => Values.Value[name];
}
