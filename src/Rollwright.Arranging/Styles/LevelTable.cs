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
    /// <param name="Percent">What becomes of prices, per cent of the table's.</param>
    /// <param name="SettingPercent">Price of an unusual tuning or position, per cent of the table's.</param>
    public sealed record Level(
        int Number,
        LeftBounds Bounds,
        ImmutableDictionary<Term, int> Percent,
        int SettingPercent
    )
    {
        /// <summary>The style at this level.</summary>
        public Style Apply(Style style) =>
            Known.GetOrAdd(
                (style, Number),
                _ =>
                    style
                        .With([.. style.Rolls.Where(roll => roll.Level <= Number)])
                        .With(weights =>
                            Percent.Aggregate(
                                weights,
                                (priced, change) => priced.With(change.Key, weights[change.Key] * change.Value / 100)
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
        ImmutableDictionary<int, ImmutableDictionary<Term, int>> percents
    )
    {
        var levels = ImmutableArray.CreateBuilder<Level>();
        foreach (var row in DataTable.Parse(file, text, "level", "fret", "fingers", "slurs", "licks", "settings").Rows)
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
                new(
                    number,
                    bounds,
                    percents.GetValueOrDefault(number, ImmutableDictionary<Term, int>.Empty),
                    row.Whole("settings")
                )
            );
        }
        return levels.ToImmutable();
    }

    /// <summary>Per cent of prices by level.</summary>
    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableDictionary<int, ImmutableDictionary<Term, int>> ParsePrices(string file, string text)
    {
        var table = DataTable.Parse(file, text, "price");
        return Enumerable
            .Range(Lowest, Highest)
            .ToImmutableDictionary(
                level => level,
                level =>
                    table.Rows.ToImmutableDictionary(
                        row => TermNames.Find(row["price"]) ?? throw row.Wrong($"no price is called '{row["price"]}'"),
                        row => row.Whole(level.ToString(CultureInfo.InvariantCulture))
                    )
            );
    }
}
