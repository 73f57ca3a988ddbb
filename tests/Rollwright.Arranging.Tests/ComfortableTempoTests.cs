using Rollwright.Banjo.Playability;
using Rollwright.Formats.Abc;
using Rollwright.TestKit;

namespace Rollwright.Arranging.Tests;

/// <summary>
/// What the hands' times say of arranged breaks. Common practice, no source: slow jams are at 60 to 80 half notes a
/// minute, where a step is an eighth; records at 90 to 110; jams at 110 to 160.
/// </summary>
public class ComfortableTempoTests
{
    [Fact]
    public void Breaks_of_tunes_go_at_the_tempo_of_jams_and_no_bar_falls_out_of_all_bounds()
    {
        var whole = new List<double>();
        foreach (var file in Directory.GetFiles(Places.NeedShared("tunes"), "*.abc").Order(StringComparer.Ordinal))
        {
            var tune = AbcReader.Read(File.ReadAllBytes(file), Path.GetFileName(file)).Tunes[0];
            var limit = TempoLimit.Of(Arranger.Arrange(tune).Break);
            // Four steps to the half note, whatever the metre.
            var steps = limit.Unit.ToDouble() / tune.Time.Step.ToDouble() / 4;
            foreach (var bar in limit.Bars.Where(bar => bar.PerMinute is not null))
            {
                (bar.PerMinute * steps).Should().BeGreaterThan(20, $"{Path.GetFileName(file)}, bar {bar.Bar + 1}");
                bar.Words.Should().NotBeEmpty();
            }
            limit.Limiting.Should().NotBeEmpty();
            whole.Add(limit.PerMinute!.Value * steps);
        }
        whole.Order().ElementAt(whole.Count / 2).Should().BeInRange(80, 170);
    }
}
