using Rollwright.Banjo.Forms;
using Rollwright.TestKit;

namespace Rollwright.Banjo.Tests.Forms;

public class BreakFormTests
{
    private const string One = "3.0T 2.0I 5.0T 1.0M 4.0T 2.0I 5.0T 1.0M";
    private const string Two = "3.2T 2.1I 5.0T 1.0M 4.0T 2.1I 5.0T 1.0M";

    [Fact]
    public void Parts_are_named_counted_and_divided_into_phrases_that_know_what_they_repeat()
    {
        var played = SampleBreaks.Small with
        {
            Spans = [],
            Bars =
            [
                SampleBreaks.Bar("3.0T 2.0I", new() { Part = "A" }),
                SampleBreaks.Bar(One, new() { RepeatStart = true }),
                SampleBreaks.Bar(Two),
                SampleBreaks.Bar(Two),
                SampleBreaks.Bar(Two, new() { RepeatEnd = 2 }),
                SampleBreaks.Bar(One, new() { Part = "B" }),
                SampleBreaks.Bar(Two),
            ],
        };
        var parts = BreakForm.Of(played);
        parts.Select(part => (part.Name, part.Times)).Should().Equal(("A", 2), ("B", 1));
        parts.SelectMany(part => part.Phrases).Select(phrase => phrase.Like).Should().Equal(1, 2, 1);
        parts[0].Phrases[0].Bars.Should().Equal([0, 1, 2], "the pickup opens the first phrase");
        parts[1].Phrases[0].IsAgain.Should().BeTrue("the pickup before the other does not tell them apart");
    }

    [Fact]
    public void A_phrase_says_which_ending_it_goes_into_and_no_phrase_holds_two()
    {
        var phrases = BreakForm.Of(SampleBreaks.Small)[0].Phrases;
        phrases
            .Select(phrase => (string.Join(' ', phrase.Bars), phrase.Ending))
            .Should()
            .Equal(("0 1 2", ""), ("3 4", "1."), ("5", "2."));
        phrases.SelectMany(phrase => phrase.Bars).Should().BeInAscendingOrder();
    }
}
