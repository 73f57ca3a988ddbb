using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Styles;

/// <summary>The levels of <c>data/levels.txt</c> and <c>data/level-prices.txt</c>: bounds for the left hand and prices, nothing else.</summary>
public static class LevelTable
{
    public const int Lowest = 1;
    public const int Highest = 5;

    private const int ShapesAStep = 64;

    private static readonly Lazy<ImmutableArray<Level>> BuiltIn = new(() =>
        Parse(
            "levels.txt",
            BuiltInData.Text("levels.txt"),
            ParsePrices("level-prices.txt", BuiltInData.Text("level-prices.txt"))
        )
    );

    // One style a level for each style: what is built for it (the right hand's automata) is then built once.
    private static readonly ConcurrentDictionary<(Style Style, int Level), Style> Known = [];

    /// <param name="Number">1 to 5.</param>
    /// <param name="Bounds">What the left hand may be asked for.</param>
    /// <param name="Prices">What becomes of prices.</param>
    public sealed record Level(int Number, LeftBounds Bounds, ImmutableDictionary<Term, LevelPrice> Prices)
    {
        /// <summary>The style at this level.</summary>
        public Style Apply(Style style) =>
            Known.GetOrAdd(
                (style, Number),
                _ =>
                    style
                        .With([.. style.Rolls.Where(roll => roll.Level <= Number)])
                        .With(weights =>
                            Prices.Aggregate(
                                weights,
                                (priced, change) => priced.With(change.Key, change.Value.Of(weights[change.Key]))
                            )
                        )
            );
    }

    /// <exception cref="ArgumentOutOfRangeException">There is no such level.</exception>
    public static Level Of(int number) =>
        BuiltIn.Value.FirstOrDefault(level => level.Number == number)
        ?? throw new ArgumentOutOfRangeException(nameof(number), number, "A level is 1 to 5.");

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<Level> Parse(
        string file,
        string text,
        ImmutableDictionary<int, ImmutableDictionary<Term, LevelPrice>> prices
    )
    {
        var levels = ImmutableArray.CreateBuilder<Level>();
        foreach (var row in DataTable.Parse(file, text, "level", "fret", "fingers", "slurs", "licks").Rows)
        {
            var slurs = row["slurs"] switch
            {
                "yes" => true,
                "no" => false,
                var other => throw row.Wrong($"slurs '{other}' is neither yes nor no"),
            };
            if (row.Whole("fingers") is not (>= 1 and <= 4) || row.Whole("fret") is not (>= 1 and <= 22))
                throw row.Wrong("fingers are 1 to 4, a fret is 1 to 22");
            var bounds = new LeftBounds(
                row.Whole("fret"),
                row.Whole("fingers"),
                ShapesAStep,
                slurs,
                row.Whole("licks")
            );
            var number = row.Whole("level");
            levels.Add(
                new(number, bounds, prices.GetValueOrDefault(number, ImmutableDictionary<Term, LevelPrice>.Empty))
            );
        }
        return levels.ToImmutable();
    }

    /// <summary>What becomes of prices, by level: a number is per cent, one behind = is the price itself.</summary>
    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableDictionary<int, ImmutableDictionary<Term, LevelPrice>> ParsePrices(string file, string text)
    {
        var table = DataTable.Parse(file, text, "price");
        return Enumerable
            .Range(Lowest, Highest)
            .ToImmutableDictionary(
                level => level,
                level =>
                    table.Rows.ToImmutableDictionary(
                        row => TermNames.Find(row["price"]) ?? throw row.Wrong($"no price is called '{row["price"]}'"),
                        row => PriceIn(row, level.ToString(CultureInfo.InvariantCulture))
                    )
            );
    }

    private static LevelPrice PriceIn(DataTable.Row row, string level) =>
        !row[level].StartsWith('=') ? new(row.Whole(level), false)
        : int.TryParse(row[level].AsSpan(1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var price)
            ? new(price, true)
        : throw row.Wrong($"'{row[level]}' is no price; write = and a whole number, such as =-150");
}
