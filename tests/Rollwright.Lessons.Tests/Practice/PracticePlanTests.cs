using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Lessons.Practice;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Practice;

public class PracticePlanTests
{
    private static readonly DateOnly Day = new(2026, 3, 2);
    private static readonly PracticeHabits Habits = PracticeHabits.Usual;

    [Fact]
    public void Every_phrase_of_every_tune_is_learnt_once_hardest_first()
    {
        foreach (var played in SharedBreaks.All())
        {
            var plan = PracticePlan.Of(played, Habits, [], Day, days: 60);
            var phrases = BreakForm.Of(played).SelectMany(part => part.Phrases).Select(phrase => phrase.Number);
            plan.Works.SelectMany(work => work.Also.Prepend(work.Phrase.Number))
                .Order()
                .Should()
                .Equal(phrases.Order(), played.Title);
            plan.Works.Select(work => work.Comfortable ?? double.PositiveInfinity)
                .Should()
                .BeInAscendingOrder(played.Title);
            var taken = plan.Coming.Prepend(plan.Today).SelectMany(session => session.New);
            taken.Should().Equal(plan.Works.Select(work => work.Phrase.Number), played.Title);
        }
    }

    [Fact]
    public void Exercises_fill_the_session_and_lie_within_the_music_of_every_tune()
    {
        foreach (var played in SharedBreaks.All())
        {
            var length = played.Order.Aggregate(Music.Metre.Fraction.Zero, (sum, bar) => sum + played.Bars[bar].Length);
            var plan = PracticePlan.Of(played, Habits, [], Day);
            foreach (var session in plan.Coming.Prepend(plan.Today))
            {
                session.Exercises.Sum(exercise => exercise.Minutes).Should().Be(Habits.Minutes, played.Title);
                foreach (var exercise in session.Exercises)
                {
                    exercise.Start.Should().BeInRange(exercise.Ladder.Start, exercise.Ladder.Target);
                    foreach (var loop in exercise.Loops)
                    {
                        (loop.From < loop.To && loop.To <= length).Should().BeTrue(played.Title);
                        var sum = loop.Bars.Aggregate(loop.From, (at, bar) => at + played.Bars[bar].Length);
                        sum.Should().Be(loop.To, $"{played.Title}: {loop.Name}");
                    }
                }
            }
        }
    }

    [Fact]
    public void A_phrase_returns_after_one_three_seven_and_fourteen_days_if_it_is_played_each_time()
    {
        var plan = PracticePlan.Of(Whole(), Habits, [], Day, days: 60);
        var first = plan.Works[0].Phrase.Number;
        var days = plan.Coming.Where(session => session.Due.Contains(first)).Select(session => session.Day).ToList();
        days.Select(day => day.DayNumber - Day.DayNumber).Should().StartWith([1, 4, 11, 25, 39]);
    }

    [Fact]
    public void Who_missed_days_gets_the_most_overdue_first_and_no_more_than_can_be_done()
    {
        var played = Whole();
        var works = PhraseWork.Of(played, 80, Habits);
        var history = works.Select((work, i) => Record(Day.AddDays(i), work, 60)).ToList();
        var session = Session.For(played, works, Habits, history, Day.AddDays(30));
        session.Due.Should().Equal(works.Take(4).Select(work => work.Phrase.Number));
        session.New.Should().BeEmpty();
    }

    [Fact]
    public void What_was_reached_is_where_the_next_day_starts_a_little_below()
    {
        var played = Whole();
        var works = PhraseWork.Of(played, 80, Habits);
        var session = Session.For(played, works, Habits, [Record(Day, works[0], 64)], Day.AddDays(1));
        var back = session.Exercises.Single(exercise => exercise.Kind == ExerciseKind.Return);
        back.Start.Should().Be(60, "64 was clean, and a rung is 5 % of 80");
    }

    [Fact]
    public void Later_records_do_not_change_a_day()
    {
        var played = Whole();
        var works = PhraseWork.Of(played, 80, Habits);
        var session = Session.For(played, works, Habits, [Record(Day.AddDays(3), works[0], 64)], Day);
        session.New.Should().StartWith(works[0].Phrase.Number);
    }

    [Fact]
    public void A_day_ends_with_what_was_new_first()
    {
        var plan = PracticePlan.Of(Whole(), Habits, [], Day);
        var last = plan.Today.Exercises[^1];
        last.Kind.Should().Be(ExerciseKind.Close);
        last.Phrases.Should().Equal(plan.Today.New[0]);
    }

    [Fact]
    public void The_band_plays_a_part_that_is_known_and_not_before()
    {
        var played = Whole();
        var plan = PracticePlan.Of(played, Habits, [], Day, days: 60);
        var known = new HashSet<int>();
        foreach (var session in plan.Coming.Prepend(plan.Today))
        {
            foreach (var exercise in session.Exercises.Where(exercise => exercise.Kind == ExerciseKind.WithBand))
                exercise
                    .Phrases.Select(number => LikeOf(played, number))
                    .Should()
                    .OnlyContain(number => known.Contains(number));
            known.UnionWith(session.New);
        }
        plan.Coming.SelectMany(session => session.Exercises)
            .Should()
            .Contain(exercise => exercise.Kind == ExerciseKind.WithBand);
    }

    [Fact]
    public void A_break_without_notes_and_a_plan_without_days_are_refused()
    {
        var empty = SampleBreaks.Small with
        {
            Bars = [.. SampleBreaks.Small.Bars.Select(bar => bar with { Strokes = [] })],
        };
        FluentActions
            .Invoking(() => PracticePlan.Of(empty, Habits, [], Day))
            .Should()
            .Throw<ArgumentException>()
            .WithMessage("*no note*");
        FluentActions
            .Invoking(() => PracticePlan.Of(SampleBreaks.Small, Habits, [], Day, days: 0))
            .Should()
            .Throw<ArgumentOutOfRangeException>();
    }

    private static int LikeOf(Break played, int number) =>
        BreakForm.Of(played).SelectMany(part => part.Phrases).Single(phrase => phrase.Number == number).Like;

    private static PracticeRecord Record(DateOnly day, PhraseWork work, double tempo) =>
        new(day, work.Phrase.Number, tempo, 5, 0);

    // Two parts of eight bars, every phrase another.
    private static Break Whole() =>
        SampleBreaks.Small with
        {
            Bars =
            [
                .. Enumerable
                    .Range(0, 16)
                    .Select(i =>
                        SampleBreaks.Bar(
                            $"3.{i % 5}T 2.0I 5.0T 1.{i / 4}M 4.0T 2.{i % 3}I 5.0T 1.0M",
                            new()
                            {
                                Part = i switch
                                {
                                    0 => "A",
                                    8 => "B",
                                    _ => null,
                                },
                            },
                            "G"
                        )
                    ),
            ],
            Spans = [],
        };
}
