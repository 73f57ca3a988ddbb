using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Variations;

/// <summary>A kind of version: what becomes of the prices, and how much of the break must sound otherwise.</summary>
/// <param name="Name">As <c>data/versions.txt</c> has it.</param>
/// <param name="Changes">Prices that change: per cent of the style's, or a price of its own.</param>
/// <param name="IsOctaveUp">The tune goes an octave higher where most of it lies on the neck there.</param>
/// <param name="Differs">Share of the steps that must sound otherwise, 0 to 1.</param>
public sealed record Version(string Name, ImmutableArray<Version.Change> Changes, bool IsOctaveUp, double Differs)
{
    private static readonly Lazy<ImmutableArray<Version>> BuiltIn = new(() =>
        Parse("versions.txt", BuiltInData.Text("versions.txt"))
    );

    public readonly record struct Change(Term Term, int? Percent, int? Price)
    {
        public int Of(int price) => Price ?? price * (Percent ?? 100) / 100;
    }

    public static ImmutableArray<Version> All => BuiltIn.Value;

    public static Version? Find(string name) => All.FirstOrDefault(version => version.Name == name);

    public Style Apply(Style style) =>
        style.With(weights =>
            Changes.Aggregate(weights, (priced, change) => priced.With(change.Term, change.Of(weights[change.Term])))
        );

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<Version> Parse(string file, string text) =>
        [
            .. DataTable
                .Parse(file, text, "version", "price", "percent", "set", "octave", "differs")
                .Rows.GroupBy(row => row["version"])
                .Select(rows => new Version(
                    rows.Key,
                    [
                        .. rows.Where(row => row["price"] != "-")
                            .Select(row => new Change(
                                TermNames.Find(row["price"]) ?? throw row.Wrong($"no price is called '{row["price"]}'"),
                                row["percent"] == "-" ? null : row.Whole("percent"),
                                row["set"] == "-" ? null : row.Whole("set")
                            )),
                    ],
                    rows.Any(row => row["octave"] == "up"),
                    rows.Max(row => row.Whole("differs")) / 100.0
                )),
        ];
}
