using System.Collections.Immutable;
using CsCheck;
using Rollwright.Music.Forms;

namespace Rollwright.Music.Tests.Forms;

public class UnfoldingTests
{
    // A bar is a letter with its marks: "[" repeat start, "1:" ending, "]" repeat end, "|" section end, "'" part label.
    private static ImmutableArray<BarMarks> Bars(string text) =>
        [
            .. text.Split(' ')
                .Select(bar => new BarMarks
                {
                    RepeatStart = bar.Contains('[', StringComparison.Ordinal),
                    RepeatEnd = bar.Count(sign => sign == ']') is var ends and > 0 ? ends + 1 : 0,
                    EndingStart = [.. bar.Where(char.IsAsciiDigit).Select(sign => sign - '0')],
                    EndingStop = bar.Contains('.', StringComparison.Ordinal),
                    SectionEnd = bar.Contains('|', StringComparison.Ordinal),
                    Part = bar.Contains('\'', StringComparison.Ordinal) ? "P" : null,
                }),
        ];

    [Theory]
    [InlineData("a b c", "0 1 2")]
    [InlineData("[a b]", "0 1 0 1")]
    [InlineData("a b] c d]", "0 1 0 1 2 3 2 3")]
    [InlineData("p [a b] [c d]", "0 1 2 1 2 3 4 3 4")]
    [InlineData("a] b", "0 0 1")]
    [InlineData("[a]] b", "0 0 0 1")]
    [InlineData("[a 1b.] 2c. d", "0 1 0 2 3")]
    [InlineData("[a 1b.] 2c.] d", "0 1 0 2 3")]
    [InlineData("[a 13b.] 2c.] 4d. e", "0 1 0 2 0 1 0 3 4")]
    [InlineData("[a 1b] 2c d|", "0 1 0 2 3")]
    [InlineData("[a 1b c.] 2d e. f g] h", "0 1 2 0 3 4 5 6 5 6 7")]
    [InlineData("[a 1b 2c", "0 1 0 2")]
    [InlineData("a 1b c", "0 1 2")]
    [InlineData("a| b]", "0 1 1")]
    [InlineData("[a| b]", "0 1 0 1")]
    [InlineData("'a b 'c d]", "0 1 2 3 2 3")]
    [InlineData("[a 1b.] [c]", "0 1 0 2 2")]
    [InlineData("a] 24b", "0 0 1 0 0 1")]
    public void Order_of_play(string bars, string order) =>
        string.Join(' ', Unfolding.Order(Bars(bars))).Should().Be(order);

    [Fact]
    public void Nothing_is_played_before_it_is_written_and_work_is_bounded_whatever_the_marks() =>
        Gen.Select(Gen.Bool, Gen.Int[0, 1000], Gen.Int[0, 1_000_000], Gen.Int[0, 7])
            .Select(
                (start, end, ending, other) =>
                    new BarMarks
                    {
                        RepeatStart = start,
                        RepeatEnd = other == 0 ? end : 0,
                        EndingStart = other == 1 ? [ending] : [],
                        EndingStop = other == 2,
                        SectionEnd = other == 3,
                        Part = other == 4 ? "A" : null,
                    }
            )
            .Array[0, 30]
            .Sample(bars =>
            {
                var order = Unfolding.Order(bars);
                order.Length.Should().BeLessThanOrEqualTo(bars.Length * Unfolding.MostPasses);
                order.Should().OnlyContain(index => index >= 0 && index < bars.Length);
            });

    [Fact]
    public void Without_repeats_and_endings_every_bar_is_played_once_in_order() =>
        Gen
            .Bool.Array[1, 20]
            .Sample(doubles =>
                Unfolding
                    .Order([.. doubles.Select(isDouble => new BarMarks { SectionEnd = isDouble })])
                    .Should()
                    .Equal(Enumerable.Range(0, doubles.Length))
            );
}
