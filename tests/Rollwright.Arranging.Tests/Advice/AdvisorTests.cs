using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Rollwright.Arranging.Advice;
using Rollwright.Arranging.Styles;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Advice;

public partial class AdvisorTests
{
    [Fact]
    public void The_advised_style_comes_first_ways_stand_in_order_of_price_and_every_style_that_plays_the_tune_is_among_them() =>
        Gen.Select(TuneGenerator.Tunes(4), Gen.Int[1, 5])
            .Sample(
                (tune, level) =>
                {
                    var advice = Arranger.Advise(tune, new() { Level = level });
                    var advised = advice.Ways.TakeWhile(way => way.Style == advice.Style).ToArray();
                    advised.Should().NotBeEmpty();
                    advised.Select(way => way.Price).Should().BeInAscendingOrder();
                    var others = advice.Ways.Skip(advised.Length).ToArray();
                    others.Should().OnlyContain(way => way.Style != advice.Style);
                    others.Select(way => way.Price).Should().BeInAscendingOrder();
                    advice.Ways.Should().OnlyContain(way => way.Kept >= 0 && way.Kept <= 1);
                    advice.Ways.Select(way => (way.Setting, way.Style)).Should().OnlyHaveUniqueItems();
                    advice
                        .Ways.Select(way => way.Style)
                        .Distinct()
                        .Should()
                        .BeEquivalentTo(StyleTable.Solo.Select(style => style.Name));
                },
                iter: 12
            );

    [Fact]
    public void Every_per_cent_in_the_sentences_is_what_was_found() =>
        Gen.Select(TuneGenerator.Tunes(4), Gen.Int[1, 5])
            .Sample(
                (tune, level) =>
                {
                    var options = new ArrangeOptions { Level = level };
                    var advice = Arranger.Advise(tune, options);
                    var drafts = new Drafts(tune, options);
                    var roll = drafts.Of(StyleTable.Roll)[0].Draft;
                    var kept = Kept.Share(roll.Lattice, roll.Best);
                    advice.Style.Should().Be(kept >= Advisor.RollsKeepEnough ? "roll" : "mixed");
                    PerCents(advice.Sentences[0]).Should().Equal(Rounded(kept));
                    foreach (var sentence in advice.Sentences.Skip(1))
                        OfPhrase(advice, sentence);
                },
                iter: 12
            );

    [Fact]
    public void Phrases_cover_every_bar_once() =>
        TuneGenerator
            .Tunes(6)
            .Sample(
                tune =>
                    Arranger
                        .Advise(tune)
                        .Phrases.SelectMany(phrase =>
                            Enumerable.Range(phrase.FirstBar, phrase.LastBar - phrase.FirstBar + 1)
                        )
                        .SequenceEqual(Enumerable.Range(0, 6)),
                iter: 6
            );

    private static void OfPhrase(TuneAdvice advice, string sentence)
    {
        var first = int.Parse(FirstBar().Match(sentence).Groups["bar"].ValueSpan, CultureInfo.InvariantCulture);
        var phrase = advice.Phrases.Single(phrase => phrase.FirstBar == first - 1);
        int[] shares = sentence.Contains("all of it", StringComparison.Ordinal)
            ? [Rounded(phrase.Roll)]
            : [Rounded(phrase.Roll), Rounded(phrase.Melodic)];
        PerCents(sentence).Should().Equal(shares);
        phrase.Melodic.Should().BeGreaterThan(phrase.Roll);
    }

    private static int Rounded(double share) => (int)Math.Round(100 * share);

    private static IEnumerable<int> PerCents(string sentence) =>
        PerCent()
            .Matches(sentence)
            .Select(match => int.Parse(match.Groups["share"].ValueSpan, CultureInfo.InvariantCulture));

    [GeneratedRegex(@"(?<share>\d+) %", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex PerCent();

    [GeneratedRegex(@"bars? (?<bar>\d+)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex FirstBar();
}
