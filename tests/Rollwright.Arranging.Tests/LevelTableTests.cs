using System.Collections.Immutable;
using Rollwright.Arranging.Costs;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Data;

namespace Rollwright.Arranging.Tests;

public class LevelTableTests
{
    [Fact]
    public void A_price_becomes_so_many_per_cent_or_one_of_its_own()
    {
        var prices = LevelTable.ParsePrices(
            "mine.txt",
            "price|1|2|3|4|5\nplace|150|100|100|100|50\nearly|100|100|100|100|=-150\n"
        );
        prices[1][Term.Place].Of(1000).Should().Be(1500);
        prices[5][Term.Place].Of(1000).Should().Be(500);
        prices[4][Term.Early].Of(0).Should().Be(0);
        prices[5][Term.Early].Of(0).Should().Be(-150);
    }

    [Theory]
    [InlineData("place|=x|100|100|100|100", "'=x' is no price; write = and a whole number, such as =-150")]
    [InlineData("plaice|100|100|100|100|100", "no price is called 'plaice'")]
    public void A_wrong_price_is_refused_with_file_and_line(string row, string what)
    {
        var reading = () => LevelTable.ParsePrices("mine.txt", $"price|1|2|3|4|5\n{row}\n");
        reading.Should().Throw<DataException>().WithMessage($"mine.txt:2:*{what}*");
    }

    [Theory]
    [InlineData("1|5|2|maybe|1", "slurs 'maybe' is neither yes nor no")]
    [InlineData("1|5|6|no|1", "fingers are 1 to 4, a fret is 1 to 22")]
    [InlineData("1|30|2|no|1", "fingers are 1 to 4, a fret is 1 to 22")]
    public void A_wrong_level_is_refused_with_file_and_line(string row, string what)
    {
        var none = ImmutableDictionary<int, ImmutableDictionary<Term, LevelPrice>>.Empty;
        var reading = () => LevelTable.Parse("mine.txt", $"level|fret|fingers|slurs|licks\n{row}\n", none);
        reading.Should().Throw<DataException>().WithMessage($"mine.txt:2:*{what}*");
    }

    [Fact]
    public void A_level_knows_the_rolls_of_those_below_and_more()
    {
        for (var level = LevelTable.Lowest; level < LevelTable.Highest; level++)
        {
            var (here, above) = (Rolls(level), Rolls(level + 1));
            here.Should().NotBeEmpty().And.BeSubsetOf(above);
        }
        Rolls(LevelTable.Lowest).Length.Should().BeLessThan(Rolls(LevelTable.Highest).Length);

        static string[] Rolls(int level) =>
            [.. LevelTable.Of(level).Apply(StyleTable.Roll).Rolls.Select(roll => roll.Name)];
    }
}
