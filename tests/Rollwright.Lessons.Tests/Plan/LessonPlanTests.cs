using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Formats.TextTab;
using Rollwright.Lessons.Plan;
using Rollwright.Lessons.Words;
using Rollwright.Lessons.Words.Edits;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Plan;

public class LessonPlanTests
{
    private static readonly Break Played = SampleBreaks.Small;

    [Fact]
    public void Every_phrase_is_taught_once_or_had_with_another_the_defining_one_first_the_endings_last()
    {
        foreach (var played in SharedBreaks.All())
        {
            var steps = TeachingOrder.Of(played, []);
            var phrases = BreakForm.Of(played).SelectMany(part => part.Phrases).ToList();
            steps
                .SelectMany(step => step.Also.Add(step.Phrase))
                .Order()
                .Should()
                .Equal(phrases.Select(phrase => phrase.Number), played.Title);
            steps[0].Reason.Should().Be(TeachingReason.Defining);
            steps
                .Skip(1)
                .Select(step => step.Reason)
                .Should()
                .BeInAscendingOrder()
                .And.NotContain(TeachingReason.Defining);
            var heard = steps.Where(step => step.Reason != TeachingReason.Ending).Max(step => step.Times);
            steps[0].Times.Should().Be(heard, played.Title);
        }
    }

    [Fact]
    public void A_phrase_is_heard_as_often_as_its_last_note_sounds()
    {
        foreach (var played in SharedBreaks.All())
        {
            var sounds = played.Played().CountBy(stroke => (stroke.Bar, stroke.Index)).ToDictionary();
            var phrases = BreakForm.Of(played).SelectMany(part => part.Phrases).ToDictionary(phrase => phrase.Number);
            foreach (var step in TeachingOrder.Of(played, []))
                step.Times.Should()
                    .Be(
                        step.Also.Add(step.Phrase)
                            .Select(number => phrases[number].Bars[^1])
                            .Sum(bar => sounds[(bar, played.Bars[bar].Strokes.Length - 1)]),
                        $"{played.Title}, phrase {step.Phrase}"
                    );
        }
    }

    [Theory]
    [InlineData("", RightsKind.Unknown, true)]
    [InlineData("Trad.", RightsKind.Traditional, false)]
    [InlineData("traditional, arr. by a friend", RightsKind.Traditional, false)]
    [InlineData("A. Friend", RightsKind.Composed, true)]
    public void Rights_are_as_the_source_says_and_what_is_open_is_warned_of(
        string composer,
        RightsKind kind,
        bool warns
    )
    {
        var rights = Rights.Of(Played with { Composer = composer });
        rights.Kind.Should().Be(kind);
        (rights.Warning.Length > 0).Should().Be(warns);
    }

    [Fact]
    public void A_lesson_of_a_tune_has_its_variations_and_what_is_played_behind_others()
    {
        foreach (var made in SharedBreaks.Made(ArrangeOptions.Default, 3, 9))
        {
            var plan = LessonPlan.Of(made, 3);
            plan.Variations.Length.Should().BeInRange(2, Variation.Most, made.Tune.Title);
            plan.Behind.Should().NotBeEmpty();
            plan.Words.Select(words => words.Number).Should().Equal(plan.Steps.Select(step => step.Phrase));
        }
    }

    [Fact]
    public void A_phrase_that_is_had_with_another_is_told_without_a_pickup_where_it_has_none()
    {
        foreach (var played in SharedBreaks.All())
        {
            var phrases = BreakForm.Phrases(played).ToDictionary(phrase => phrase.Number);
            foreach (var step in TeachingOrder.Of(played, []))
            {
                var words = AlsoWords.Of(played, step);
                (words.Length == 0).Should().Be(step.Also.IsEmpty);
                foreach (var number in step.Also)
                    words
                        .Contains($"phrase {number} (without the pickup)", StringComparison.Ordinal)
                        .Should()
                        .Be(HasPickup(step.Phrase) && !HasPickup(number), $"{played.Title}, phrase {number}");
            }

            bool HasPickup(int number) => played.Numbering[phrases[number].Bars[0]].IsShortInFront;
        }
    }

    [Fact]
    public void A_bar_that_ends_early_says_where_and_what_follows()
    {
        var played = SampleBreaks.Small;
        foreach (var tune in SharedBreaks.All().Append(played))
        {
            var words = PhraseWords.EachOf(tune).SelectMany(phrase => phrase.Sentences).ToLookup(one => one.Bars[0]);
            for (var bar = 0; bar < tune.Bars.Length; bar++)
            {
                var isShort = tune.Bars[bar].IsPartial && !tune.Numbering[bar].IsShortInFront;
                var said = words[bar]
                    .Where(one => one.Long.StartsWith("The bar ends before ", StringComparison.Ordinal));
                said.Any().Should().Be(isShort, $"{tune.Title}, bar {tune.Numbering[bar].Name}");
            }
        }
    }

    [Fact]
    public void The_capo_s_keys_and_chords_are_told_to_the_others()
    {
        var along = PlayingAlong.Of(SampleBreaks.SmallCapo2);
        along.TunesUp.Should().BeTrue();
        string.Join(' ', along.Sentences).Should().Contain("String 5 goes up 2 frets too, to A").And.Contain("G is A");
        PlayingAlong.Of(Played).TunesUp.Should().BeFalse();
    }

    [Fact]
    public void The_tab_of_each_phrase_reads_back_as_its_bars()
    {
        var plan = LessonPlan.Of(Played);
        var tabs = LessonMarkdown.Write(plan).Split("```").Where((_, i) => i % 2 == 1).Take(plan.Steps.Length).ToList();
        foreach (var (step, tab) in plan.Steps.Zip(tabs))
        {
            var phrase = BreakForm.Of(Played).SelectMany(part => part.Phrases).Single(one => one.Number == step.Phrase);
            var read = TextTabReader.Read(tab, "lesson").Break;
            Notes(read!.Bars).Should().Equal(Notes(phrase.Bars.Select(bar => Played.Bars[bar])));
        }
    }

    // Those of a pinch in the order of their strings.
    private static IEnumerable<(int String, int Fret)> Notes(IEnumerable<BreakBar> bars) =>
        bars.SelectMany(bar => bar.Strokes.OrderBy(stroke => stroke.At).ThenBy(stroke => stroke.String))
            .Select(stroke => (stroke.String, stroke.Fret));

    [Fact]
    public void A_person_s_words_are_in_the_lesson_and_marked_where_the_notes_have_changed()
    {
        var edits = LessonText.Empty.With(Played, 1, "Let it *fall*.");
        LessonMarkdown
            .Write(LessonPlan.Of(Played), edits)
            .Should()
            .Contain("Let it *fall*.")
            .And.NotContain("other notes");
        var changed = Played with
        {
            Bars = Played.Bars.SetItem(1, Played.Bars[1] with { Strokes = Played.Bars[1].Strokes[1..] }),
        };
        LessonMarkdown
            .Write(LessonPlan.Of(changed), edits)
            .Should()
            .Contain("Let it *fall*.")
            .And.Contain("other notes");
        LessonMarkdown
            .Write(LessonPlan.Of(Played with { Bars = Played.Bars[^1..] }), LessonText.Empty.With(Played, 2, "Lost?"))
            .Should()
            .Contain("Lost?");
    }

    [Fact]
    public void Markup_in_a_title_stays_text() =>
        LessonMarkdown
            .Write(LessonPlan.Of(Played with { Title = "<script>*a*\n# b" }))
            .Should()
            .StartWith("# \\<script\\>\\*a\\* # b\n");

    [Fact]
    public void A_break_without_notes_is_refused()
    {
        var empty = Played with { Bars = [Played.Bars[1] with { Strokes = [] }] };
        var teaching = () => LessonPlan.Of(empty);
        teaching.Should().Throw<LessonException>();
    }
}
