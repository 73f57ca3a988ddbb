using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Styles;

/// <summary>The styles of <c>data/styles.txt</c>, priced by the columns of <c>data/weights.txt</c>.</summary>
public static class StyleTable
{
    private static readonly Lazy<ImmutableArray<Style>> BuiltIn = new(() =>
        Parse(
            "styles.txt",
            BuiltInData.Text("styles.txt"),
            Weights.Columns,
            ParsePrices("style-prices.txt", BuiltInData.Text("style-prices.txt"))
        )
    );

    public static ImmutableArray<Style> All => BuiltIn.Value;

    public static Style Roll => All[0];

    /// <summary>Those that play the tune; the others go with someone who does.</summary>
    public static IEnumerable<Style> Solo => All.Where(style => !style.WholeChords);

    /// <summary>A style by its name; null where there is none.</summary>
    public static Style? Find(string name) => All.FirstOrDefault(style => style.Name == name);

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<Style> Parse(
        string file,
        string text,
        ImmutableDictionary<string, Weights> columns,
        ILookup<string, (Term Term, int Price)> prices
    )
    {
        var styles = ImmutableArray.CreateBuilder<Style>();
        foreach (var row in DataTable.Parse(file, text, "style", "prices", "rhythm", "places", "shapes").Rows)
        {
            var manners = row["prices"]
                .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .Select(name =>
                    columns.TryGetValue(name, out var weights)
                        ? new Manner(name, weights)
                        : throw row.Wrong($"the table of weights has no column '{name}'")
                )
                .ToImmutableArray();
            if (manners.Length is not (1 or 2))
                throw row.Wrong("a style names one column of prices, or two to choose from");
            var followsTune = row["rhythm"] switch
            {
                "steady" => false,
                "tune" => true,
                var other => throw row.Wrong($"rhythm '{other}' is neither steady nor tune"),
            };
            var wholeChords = row["shapes"] switch
            {
                "tune" => false,
                "chords" => true,
                var other => throw row.Wrong($"shapes '{other}' is neither tune nor chords"),
            };
            var style = new Style(row["style"], manners, followsTune, row.Whole("places"), wholeChords);
            styles.Add(
                style.With(weights => prices[style.Name].Aggregate(weights, (w, set) => w.With(set.Term, set.Price)))
            );
        }
        return styles.ToImmutable();
    }

    /// <summary>The prices that each style sets.</summary>
    /// <exception cref="DataException">A row is wrong.</exception>
    public static ILookup<string, (Term Term, int Price)> ParsePrices(string file, string text) =>
        DataTable
            .Parse(file, text, "style", "price", "value")
            .Rows.ToLookup(
                row => row["style"],
                row =>
                    (
                        TermNames.Find(row["price"]) ?? throw row.Wrong($"no price is called '{row["price"]}'"),
                        row.Whole("value")
                    )
            );
}
