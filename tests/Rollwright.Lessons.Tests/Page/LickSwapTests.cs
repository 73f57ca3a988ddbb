using System.Collections.Immutable;
using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Playability;
using Rollwright.Lessons.Outputs;
using Rollwright.Lessons.Page;
using Rollwright.Lessons.Plan;

namespace Rollwright.Lessons.Tests.Page;

/// <summary>What a reader may put into the phrases of a lesson, over tunes of ../shared/tunes.</summary>
public class LickSwapTests
{
    private static readonly ImmutableArray<Lesson> Lessons = Make();

    private static ImmutableArray<Lesson> Make() =>
        [
            .. SharedBreaks
                .Made(ArrangeOptions.Default, 0, 4)
                .Select(made => Lesson.Of(LessonPlan.Of(made, ArrangeOptions.Default.Level), made)),
        ];

    [Fact]
    public void Most_tunes_offer_licks_and_each_changes_its_own_phrase_alone()
    {
        Lessons.Count(lesson => lesson.Swaps.Length >= 3).Should().BeGreaterThan(Lessons.Length / 2);
        foreach (var (plan, swaps) in Lessons.Select(lesson => (lesson.Plan, lesson.Swaps)))
        {
            var phrases = BreakForm.Phrases(plan.Played).ToDictionary(phrase => phrase.Number);
            foreach (var swap in swaps)
            {
                swap.ChangedIn(plan.Played).Should().NotBeEmpty();
                swap.ChangedIn(plan.Played).Should().BeSubsetOf(phrases[swap.Phrase].Bars);
                swap.Played.Spans.Should().Contain(span => span.Name == swap.Name);
            }
        }
    }

    [Fact]
    public void Hands_can_play_any_choice_of_them_together()
    {
        var random = new Random(7);
        foreach (var (plan, swaps) in Lessons.Select(lesson => (lesson.Plan, lesson.Swaps)))
        {
            for (var round = 0; round < 20; round++)
            {
                var chosen = swaps.GroupBy(swap => swap.Phrase).Select(own => own.ElementAt(random.Next(own.Count())));
                var mixed = chosen.Aggregate(plan.Played, (played, swap) => Put(played, swap, plan.Played));
                Checker.Check(mixed).Should().BeEmpty(plan.Tune.Title);
            }
        }
    }

    // The size that is asked for: a page that is sent by mail, without recorded sound.
    [Fact]
    public void The_page_of_every_lesson_stays_below_a_megabyte()
    {
        foreach (var lesson in Lessons)
            LessonPage.Write(lesson).Length.Should().BeLessThan(1_000_000, lesson.Plan.Tune.Title);
    }

    private static Break Put(Break played, LickSwap swap, Break original) =>
        played with
        {
            Bars = swap.ChangedIn(original)
                .Aggregate(played.Bars, (bars, bar) => bars.SetItem(bar, swap.Played.Bars[bar])),
        };
}
