using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Lattice;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Advice;

/// <summary>The levels of <c>data/levels.txt</c>: bounds for the left hand and prices, nothing else.</summary>
public static class LevelTable
{
    private const int PlacesANote = 2;
    private const int ShapesAStep = 64;

    private static readonly Lazy<ImmutableArray<Level>> BuiltIn = new(() =>
        Parse("levels.txt", BuiltInData.Text("levels.txt"))
    );

    /// <param name="Number">1 to 5.</param>
    /// <param name="Bounds">What the left hand may be asked for.</param>
    /// <param name="PlacePercent">Price of a finger put down, per cent of the table's.</param>
    public sealed record Level(int Number, LeftBounds Bounds, int PlacePercent)
    {
        public Weights Apply(Weights weights) => weights.With("place", weights["place"] * PlacePercent / 100);
    }

    /// <exception cref="ArgumentOutOfRangeException">There is no such level.</exception>
    public static Level Of(int number) =>
        BuiltIn.Value.FirstOrDefault(level => level.Number == number)
        ?? throw new ArgumentOutOfRangeException(nameof(number), number, "A level is 1 to 5.");

    /// <exception cref="DataException">A row is wrong.</exception>
    public static ImmutableArray<Level> Parse(string file, string text)
    {
        var levels = ImmutableArray.CreateBuilder<Level>();
        foreach (var row in DataTable.Parse(file, text, "level", "fret", "fingers", "slurs", "licks", "place").Rows)
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
                PlacesANote,
                ShapesAStep,
                slurs,
                row.Whole("licks")
            );
            levels.Add(new(row.Whole("level"), bounds, row.Whole("place")));
        }
        return levels.ToImmutable();
    }
}
