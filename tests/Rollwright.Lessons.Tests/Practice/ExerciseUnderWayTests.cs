using System.Collections.Immutable;
using Rollwright.Lessons.Practice;
using Rollwright.Music.Metre;

namespace Rollwright.Lessons.Tests.Practice;

public class ExerciseUnderWayTests
{
    private static readonly DateOnly Day = new(2026, 3, 2);
    private static readonly TempoLadder Ladder = new(48, 61, 4, Clean: 2, Spoiled: 2);

    private static Exercise Asked(ExerciseKind kind, ImmutableArray<int> phrases, int loops) =>
        new(
            kind,
            phrases,
            [
                .. Enumerable
                    .Range(0, loops)
                    .Select(i => new Loop([i], new Fraction(i), new Fraction(i + 1), $"bar {i + 1}")),
            ],
            Ladder,
            52,
            1,
            "Play.",
            ""
        );

    [Fact]
    public void It_begins_at_the_tempo_of_its_exercise_and_knows_its_rung()
    {
        var drill = ExerciseUnderWay.Of(Asked(ExerciseKind.Phrase, [3], 1));
        drill.Tempos.Should().Equal(48, 52, 56, 60, 61);
        drill.Rung.Tempo.Should().Be(52);
        drill.At.Should().Be(1);
    }

    [Fact]
    public void A_tempo_is_kept_when_it_was_clean_as_often_as_asked_and_not_before()
    {
        var drill = ExerciseUnderWay.Of(Asked(ExerciseKind.Phrase, [3], 1));
        var (once, first) = drill.After(0, wasClean: true, Day);
        first.Should().Equal(new PracticeRecord(Day, 3, 0, 1, 0));
        var (twice, second) = once.After(0, wasClean: true, Day);
        second.Should().Equal(new PracticeRecord(Day, 3, 52, 1, 0));
        twice.Rung.Tempo.Should().Be(56);
        twice.At.Should().Be(2);
        var (_, third) = twice.After(0, wasClean: false, Day);
        third.Should().Equal(new PracticeRecord(Day, 3, 0, 0, 1));
    }

    [Fact]
    public void The_target_itself_is_kept_when_it_is_done()
    {
        var drill = ExerciseUnderWay.Of(Asked(ExerciseKind.Phrase, [3], 1) with { Start = 61 });
        drill = drill.After(0, wasClean: true, Day).Next;
        var (done, played) = drill.After(0, wasClean: true, Day);
        done.Rung.IsDone.Should().BeTrue();
        played.Should().Equal(new PracticeRecord(Day, 3, 61, 1, 0));
    }

    [Theory]
    [InlineData(ExerciseKind.RightHand)]
    [InlineData(ExerciseKind.Bar)]
    [InlineData(ExerciseKind.WithNeighbour)]
    public void What_is_no_whole_phrase_with_both_hands_gives_it_no_tempo(ExerciseKind kind)
    {
        var drill = ExerciseUnderWay.Of(Asked(kind, [3], 1)).After(0, wasClean: true, Day).Next;
        var (next, played) = drill.After(0, wasClean: true, Day);
        next.Rung.Tempo.Should().Be(56);
        played.Should().Equal(new PracticeRecord(Day, 3, 0, 1, 0));
    }

    [Fact]
    public void Where_phrases_take_turns_the_one_that_was_played_is_kept()
    {
        var drill = ExerciseUnderWay.Of(Asked(ExerciseKind.Alternate, [3, 5], 2));
        drill.After(1, wasClean: false, Day).Played.Should().Equal(new PracticeRecord(Day, 5, 0, 0, 1));
    }

    [Fact]
    public void A_clean_part_is_every_phrase_of_it_and_a_mistake_in_it_is_of_none_that_is_known()
    {
        var drill = ExerciseUnderWay.Of(Asked(ExerciseKind.WithBand, [1, 2, 3], 1));
        drill.After(0, wasClean: true, Day).Played.Select(record => record.Phrase).Should().Equal(1, 2, 3);
        var (next, played) = drill.After(0, wasClean: false, Day);
        played.Should().BeEmpty();
        next.Rung.Spoiled.Should().Be(1);
    }

    [Fact]
    public void What_is_added_to_a_day_keeps_the_fastest_tempo_and_counts_all_passes() =>
        new PracticeRecord(Day, 3, 52, 4, 1)
            .With(new(Day, 3, 48, 1, 1))
            .Should()
            .Be(new PracticeRecord(Day, 3, 52, 5, 2));
}
