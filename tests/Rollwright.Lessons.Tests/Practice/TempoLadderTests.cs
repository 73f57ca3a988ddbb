using CsCheck;
using Rollwright.Lessons.Practice;

namespace Rollwright.Lessons.Tests.Practice;

public class TempoLadderTests
{
    private static readonly TempoLadder Ladder = new(48, 80, 4, Clean: 3, Spoiled: 2);

    [Fact]
    public void Clean_passes_in_a_row_lead_up_and_a_mistake_starts_the_count_again()
    {
        var rung = Passes(Ladder.First, true, true, false, true, true);
        rung.Tempo.Should().Be(48);
        Ladder.After(rung, true).Tempo.Should().Be(52);
    }

    [Fact]
    public void Mistakes_in_a_row_lead_down_but_never_below_the_start()
    {
        Passes(Ladder.At(60), false, false).Tempo.Should().Be(56);
        Passes(Ladder.First, false, false, false, false).Tempo.Should().Be(48);
    }

    [Fact]
    public void At_the_target_clean_passes_end_it()
    {
        var rung = Passes(Ladder.At(78), true, true, true);
        rung.Should().Be(new Rung(80, 0, 0, IsDone: false), "the last rung is the target, not beyond");
        Passes(rung, true, true, true).IsDone.Should().BeTrue();
    }

    [Fact]
    public void Whatever_is_played_the_tempo_stays_between_start_and_target() =>
        Gen.Select(Gen.Double[20, 300], Gen.Double[10, 300], Gen.Bool.Array[0, 200])
            .Sample(
                (comfortable, target, passes) =>
                {
                    var ladder = TempoLadder.Of(comfortable, target, PracticeHabits.Usual);
                    var rung = ladder.First;
                    foreach (var wasClean in passes)
                    {
                        var next = ladder.After(rung, wasClean);
                        next.Tempo.Should().BeInRange(ladder.Start, ladder.Target);
                        if (!wasClean)
                            next.Tempo.Should().BeLessThanOrEqualTo(rung.Tempo);
                        else
                            next.Tempo.Should().BeGreaterThanOrEqualTo(rung.Tempo);
                        rung = next;
                    }
                }
            );

    [Fact]
    public void Who_plays_clean_arrives() =>
        Gen.Select(Gen.Double[20, 300], Gen.Double[10, 300])
            .Sample(
                (comfortable, target) =>
                {
                    var ladder = TempoLadder.Of(comfortable, target, PracticeHabits.Usual);
                    var rung = ladder.First;
                    for (var pass = 0; pass < 2000 && !rung.IsDone; pass++)
                        rung = ladder.After(rung, true);
                    rung.IsDone.Should().BeTrue();
                    rung.Tempo.Should().Be(target);
                }
            );

    [Fact]
    public void It_starts_well_below_what_is_comfortable_or_asked_whichever_is_less()
    {
        TempoLadder.Of(100, 200, PracticeHabits.Usual).Start.Should().Be(60);
        TempoLadder.Of(200, 100, PracticeHabits.Usual).Start.Should().Be(60);
        TempoLadder.Of(null, 100, PracticeHabits.Usual).Start.Should().Be(60);
        TempoLadder.Of(10, 100, PracticeHabits.Usual).Start.Should().Be(TempoLadder.Slowest);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(10_000)]
    [InlineData(double.NaN)]
    public void A_tempo_that_is_none_is_refused(double target) =>
        FluentActions
            .Invoking(() => TempoLadder.Of(null, target, PracticeHabits.Usual))
            .Should()
            .Throw<ArgumentOutOfRangeException>();

    private static Rung Passes(Rung rung, params bool[] clean) => clean.Aggregate(rung, Ladder.After);
}
