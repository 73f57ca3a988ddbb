using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Playability;
using Rollwright.TestKit;

namespace Rollwright.Banjo.Tests.Playability;

public class CheckerTests
{
    [Fact]
    public void A_playable_break_has_no_finding() => Checker.Check(SampleBreaks.Small).Should().BeEmpty();

    // One fault put into a bar that has none; the rule that must see it.
    [Theory]
    [InlineData("3.0T 2.0T 5.0T 1.0M", "finger-again")]
    [InlineData("3.0T 2.0I 5.0I 1.0M", "finger-again")]
    [InlineData("3.0T 2.0I 5.0M 1.0I", "short-string")]
    [InlineData("5.3T 2.0I 4.0T 1.0M", "no-such-fret")]
    [InlineData("3.23T 2.0I 5.0T 1.0M", "no-such-fret")]
    [InlineData("3.0T+3.2I 2.0M 5.0T 1.0M", "two-on-a-string")]
    [InlineData("3.0T+2.0T - 5.0T 1.0M", "finger-on-two-strings")]
    [InlineData("1.0T+3.0M - 5.0T 1.0I", "fingers-cross")]
    [InlineData("3.1T+1.6M - 5.0T 1.0I", "stretch")]
    [InlineData("3.2T 2.12I 5.0T 1.0M", "hand-jump")]
    [InlineData("3.0T s2 5.0T 1.0M", "slur")]
    [InlineData("3.2T h1 5.0T 1.0M", "slur")]
    [InlineData("3.2T p4 5.0T 1.0M", "slur")]
    [InlineData("5.0T h7 2.0I 1.0M", "slur-on-short-string")]
    public void A_fault_is_found_by_its_rule(string bar, string rule)
    {
        var findings = Checker.Check(With(bar));
        findings.Select(finding => finding.Rule).Should().Contain(rule);
        findings.Should().OnlyContain(finding => finding.Bar == 1, "the other bar is sound");
    }

    [Fact]
    public void Rules_hold_over_the_repeat_too()
    {
        var sound = SampleBreaks.Small;
        var bars = sound.Bars.SetItem(7, SampleBreaks.Bar("2.0I - 5.0T 2.0I 5.0T 3.0I 5.0T 1.0M", sound.Bars[7].Marks));
        Checker
            .Check(sound with { Bars = bars })
            .Should()
            .Contain(finding => finding.Rule == "finger-again" && finding.Bar == 6);
    }

    [Fact]
    public void Every_rule_says_what_it_asks_and_where_it_comes_from() =>
        Rules
            .All.Should()
            .OnlyContain(rule => rule.Meaning.EndsWith('.') && rule.Source.Length > 0 && rule.Bound.Length > 0);

    private static Break With(string bar) =>
        SampleBreaks.Small with
        {
            Bars = [SampleBreaks.Bar("3.0T 2.0I 5.0T 1.0M 3.0T 2.0I 5.0T -"), SampleBreaks.Bar("- " + bar)],
            Spans = [],
        };
}
