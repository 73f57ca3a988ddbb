using System.Collections.Immutable;
using CsCheck;
using Rollwright.Lessons.Practice;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Practice;

public class TempoChartTests
{
    private static readonly DateOnly Day = new(2026, 3, 2);

    private static readonly ImmutableArray<PhraseWork> Works = PhraseWork.Of(
        SampleBreaks.Small,
        80,
        PracticeHabits.Usual
    );

    [Fact]
    public void Nothing_reached_draws_nothing()
    {
        var chart = TempoChart.Of(Works, [new(Day, Works[0].Phrase.Number, 0, 2, 3)]);
        chart.Lines.Should().BeEmpty();
        chart.Tempos.Should().BeEmpty();
    }

    [Fact]
    public void Days_stand_as_far_apart_as_they_are_and_faster_is_higher()
    {
        var phrase = Works[0].Phrase.Number;
        var chart = TempoChart.Of(
            Works,
            [new(Day.AddDays(4), phrase, 60, 9, 0), new(Day, phrase, 50, 9, 0), new(Day.AddDays(1), phrase, 55, 9, 0)]
        );
        var points = chart.Lines.Should().ContainSingle().Subject.Points;
        points
            .Select(point => point.X)
            .Should()
            .Equal(TempoChart.Left, TempoChart.Left + ((TempoChart.Right - TempoChart.Left) / 4), TempoChart.Right);
        (points[1].Y - points[0].Y).Should().BeApproximately(points[2].Y - points[1].Y, 1e-9).And.BeNegative();
        chart.Days.Select(mark => mark.Day).Should().Equal(Day, Day.AddDays(4));
    }

    [Fact]
    public void Whatever_is_kept_all_of_it_lies_within_and_no_name_stands_on_another()
    {
        var record = Gen.Select(
            Gen.Int[0, 60],
            Gen.Int[0, Works.Length - 1].Select(i => Works[i].Phrase.Number),
            Gen.Double[0, 400],
            (day, phrase, tempo) => new PracticeRecord(Day.AddDays(day), phrase, tempo, 1, 1)
        );
        record
            .Array[0, 30]
            .Sample(records =>
            {
                var chart = TempoChart.Of(Works, [.. records.DistinctBy(one => (one.Day, one.Phrase))]);
                foreach (var (x, y) in chart.Lines.SelectMany(line => line.Points))
                {
                    x.Should().BeInRange(TempoChart.Left - 1e-9, TempoChart.Right + 1e-9);
                    y.Should().BeInRange(TempoChart.Top - 1e-9, TempoChart.Bottom + 1e-9);
                }
                chart.Tempos.Length.Should().BeInRange(chart.Lines.IsEmpty ? 0 : 2, 9);
                var names = chart.Lines.Select(line => line.NameY).Order().ToList();
                names.Zip(names.Skip(1), (above, below) => below - above).Should().OnlyContain(gap => gap >= 14 - 1e-9);
            });
    }
}
