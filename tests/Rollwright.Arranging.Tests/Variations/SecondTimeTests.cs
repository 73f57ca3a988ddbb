using CsCheck;
using Rollwright.Arranging.Styles;
using Rollwright.Banjo.Playability;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests.Variations;

public class SecondTimeTests
{
    private static readonly Gen<(Tune Tune, ArrangeOptions Options)> Asked = Gen.Select(
        TuneGenerator.Tunes(4).Where(tune => tune.Order.Length > tune.Bars.Length),
        Gen.Int[0, 3],
        Gen.Int[1, 5],
        Gen.Double[0.05, 0.6],
        (tune, style, level, differs) =>
            (
                tune,
                new ArrangeOptions
                {
                    Style = StyleTable.Solo.ElementAt(style),
                    Level = level,
                    SecondTime = differs,
                }
            )
    );

    [Fact]
    public void The_first_time_through_sounds_as_the_plain_break_and_both_can_be_played() =>
        Asked.Sample(
            (tune, options) =>
            {
                var varied = Arranger.Arrange(tune, options);
                var plain = Arranger.Arrange(tune.WrittenOut(), options with { SecondTime = null });
                var seen = new HashSet<int>();
                for (var bar = 0; bar < tune.Order.Length; bar++)
                {
                    if (!seen.Add(tune.Order[bar]))
                        continue;
                    for (var step = varied.Grid.FirstOf(bar); step < varied.Grid.Bars[bar].End.Value; step++)
                        varied.PathAt(step).SoundsLike(plain.PathAt(step)).Should().BeTrue($"step {step}");
                }
                Checker.Check(varied.Break).Should().BeEmpty();
            },
            iter: 25
        );

    [Fact]
    public void The_second_time_mostly_differs_in_the_share_that_was_asked_for()
    {
        int reached = 0,
            all = 0;
        Asked.Sample(
            (tune, options) =>
            {
                var varied = Arranger.Arrange(tune, options);
                var first = new Dictionary<int, int>();
                int steps = 0,
                    otherwise = 0;
                for (var bar = 0; bar < tune.Order.Length; bar++)
                {
                    if (first.TryAdd(tune.Order[bar], bar))
                        continue;
                    for (var i = 0; i < varied.Grid.CountOf(bar); i++)
                    {
                        var plain = varied.PathAt(varied.Grid.FirstOf(first[tune.Order[bar]]) + i);
                        steps++;
                        otherwise += varied.PathAt(varied.Grid.FirstOf(bar) + i).SoundsLike(plain) ? 0 : 1;
                    }
                }
                Interlocked.Increment(ref all);
                Interlocked.Add(ref reached, otherwise >= options.SecondTime * steps ? 1 : 0);
            },
            iter: 25
        );
        reached.Should().BeGreaterThan(all * 3 / 4);
    }
}
