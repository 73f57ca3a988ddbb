using System.Collections.Immutable;
using CsCheck;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Forms;
using Rollwright.Banjo.Playability;
using Rollwright.Lessons.Page;
using Rollwright.Music.Forms;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Page;

/// <summary>Whether licks of several phrases go together, held against the checker over the whole break.</summary>
public class SwapsTogetherTests
{
    private const string Plain = "3.0T 2.0I 5.0T 1.0M 3.0T 2.0I 5.0T 1.0M";

    // Bars that hands can play by themselves and that begin or end with a finger that the neighbour may need.
    private static readonly ImmutableArray<string> Others =
    [
        "3.0T 2.0I 5.0T 1.0M 3.0T 1.0M 5.0T 2.0I",
        "2.0I 1.0M 5.0T 2.0I 3.0T 2.0I 5.0T 1.0M",
        "2.0I 1.0M 5.0T 1.0M 3.0T 1.0M 5.0T 2.0I",
        "1.0M 2.0I 5.0T 1.0M 3.0T 2.0I 1.0M 5.0T",
        "5.0T 2.0I 1.0M 5.0T 2.0I 1.0M 2.0I 3.0T",
        "1.0M 5.0T 2.0I 1.0M 3.0T 2.0I 5.0T 2.0I",
    ];

    [Fact]
    public void Licks_of_neighbours_that_one_finger_would_have_to_play_at_once_are_not_offered_together()
    {
        var played = Made(false);
        var together = new SwapsTogether(played);
        Take(together, played, bar: 1, Others[0]).Should().BeTrue();
        // It begins with the index finger, with which the bar before it may end now.
        Take(together, played, bar: 2, Others[1]).Should().BeFalse();
        Take(together, played, bar: 2, Others[5]).Should().BeTrue();
    }

    [Fact]
    public void Licks_of_one_phrase_are_chosen_instead_of_each_other()
    {
        var played = Made(false);
        var together = new SwapsTogether(played);
        Take(together, played, bar: 0, Others[0]).Should().BeTrue();
        Take(together, played, bar: 1, Others[1]).Should().BeTrue("it is of the same phrase: nobody has both");
    }

    [Fact]
    public void A_repeat_makes_the_last_phrase_a_neighbour_of_the_first()
    {
        foreach (var isRepeated in new[] { false, true })
        {
            var played = Made(isRepeated);
            var together = new SwapsTogether(played);
            Take(together, played, bar: 7, Others[0]).Should().BeTrue();
            Take(together, played, bar: 0, Others[1]).Should().Be(!isRepeated);
        }
    }

    [Fact]
    public void What_is_offered_goes_together_in_the_whole_break_and_what_is_not_does_not() =>
        Gen.Select(Gen.Bool, Gen.Select(Gen.Int[0, 7], Gen.Int[0, Others.Length - 1]).Array[2, 8])
            .Sample(
                (isRepeated, swaps) =>
                {
                    var played = Made(isRepeated);
                    var phrases = BreakForm.Phrases(played);
                    var together = new SwapsTogether(played);
                    var taken = new List<(int Bar, string Other)>();
                    foreach (var (bar, which) in swaps)
                    {
                        var other = Others[which];
                        var alone = With(played, bar, other);
                        // What is offered at all can be played by itself.
                        if (!Checker.Check(alone).IsEmpty)
                            continue;
                        var goes = taken
                            .Where(one => PhraseOf(one.Bar) != PhraseOf(bar))
                            .All(one => Checker.Check(With(alone, one.Bar, one.Other)).IsEmpty);
                        Take(together, played, bar, other).Should().Be(goes);
                        if (goes)
                            taken.Add((bar, other));
                    }

                    int PhraseOf(int bar) => phrases.Single(phrase => phrase.Bars.Contains(bar)).Number;
                },
                iter: 300
            );

    private static bool Take(SwapsTogether together, Break played, int bar, string other) =>
        together.Take(
            BreakForm.Phrases(played).Single(phrase => phrase.Bars.Contains(bar)),
            With(played, bar, other),
            [bar]
        );

    private static Break With(Break played, int bar, string other) =>
        played with
        {
            Bars = played.Bars.SetItem(bar, played.Bars[bar] with { Strokes = SampleBreaks.Bar(other).Strokes }),
        };

    private static Break Made(bool isRepeated)
    {
        var end = isRepeated ? new BarMarks { RepeatEnd = 2 } : BarMarks.None;
        var made = SampleBreaks.Small with
        {
            Bars = [.. Enumerable.Range(0, 8).Select(i => SampleBreaks.Bar(Plain, i == 7 ? end : null))],
            Spans = [],
            Tune = null,
        };
        Checker.Check(made).Should().BeEmpty();
        return made;
    }
}
