using Rollwright.Banjo.Data;
using Rollwright.Lessons.Practice;

namespace Rollwright.Lessons.Tests.Practice;

public class PracticeHabitsTests
{
    [Fact]
    public void The_built_in_table_is_read()
    {
        PracticeHabits.Usual.Clean.Should().Be(5, "five clean passes, then on: common practice, no source");
        PracticeHabits.Usual.Returns.Should().BeInAscendingOrder().And.OnlyHaveUniqueItems();
    }

    [Theory]
    [InlineData("clean    | 5 ", "clean    | 0 ", "clean is 0")]
    [InlineData("clean    | 5 ", "clean    | x ", "not a whole number")]
    [InlineData("1 3 7 14", "1 3 soon", "'soon' is no number of days")]
    [InlineData("1 3 7 14", " ", "names no day")]
    [InlineData("spoiled  | 2", "clean    | 2", "twice")]
    [InlineData("spoiled  | 2", "spoilt   | 2", "'spoiled' is missing")]
    public void A_wrong_row_is_refused_with_its_line(string right, string wrong, string words)
    {
        var text = BuiltInData.Text("practice.txt");
        text.Should().Contain(right);
        FluentActions
            .Invoking(() => PracticeHabits.Parse("mine.txt", text.Replace(right, wrong)))
            .Should()
            .Throw<DataException>()
            .WithMessage($"mine.txt:*{words}*");
    }

    [Fact]
    public void An_unknown_habit_is_refused() =>
        FluentActions
            .Invoking(() =>
                PracticeHabits.Parse(
                    "mine.txt",
                    BuiltInData.Text("practice.txt") + "naps | 2 | naps | A | after lunch\n"
                )
            )
            .Should()
            .Throw<DataException>()
            .WithMessage("*'naps' is no habit*");
}
