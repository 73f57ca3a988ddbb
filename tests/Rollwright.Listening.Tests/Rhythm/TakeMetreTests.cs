using Rollwright.Arranging;
using Rollwright.Banjo.Breaks;
using Rollwright.Banjo.Tunings;
using Rollwright.Formats.Abc;
using Rollwright.Listening.Hands;
using Rollwright.Listening.Rhythm;
using Rollwright.Listening.Tests.Hands;
using Rollwright.Music.Metre;
using Rollwright.Music.Tunes;
using Rollwright.TestKit;

namespace Rollwright.Listening.Tests.Rhythm;

/// <summary>The metre of breaks that the arranger made: no tune of them was in the table's training.</summary>
public class TakeMetreTests
{
    [Theory]
    [InlineData("lantern-on-the-millrace", 6, 8)]
    [InlineData("three-buckets-deep", 4, 4)]
    [InlineData("wren-on-the-gatepost", 4, 4)]
    public void A_take_is_written_in_its_metre(string name, int beats, int unit)
    {
        var heard = TakeWriter.Write(PlayedMoments.Of(Arranged(Demo(name))), 0, new(), default);
        heard.Break!.Time.Should().Be(new TimeSignature(beats, unit));
        // The last bar line is the take's end.
        heard.BarTimes.Length.Should().Be(heard.Break.Bars.Length + 1);
    }

    [Fact]
    public void A_metre_that_is_given_is_taken()
    {
        var moments = PlayedMoments.Of(Arranged(Demo("lantern-on-the-millrace")));
        var given = new TimeSignature(3, 4);
        TakeWriter.Write(moments, 0, new() { Time = given }, default).Break!.Time.Should().Be(given);
    }

    // Traditional tunes, as test data only. Waltzes are the hardest: some are played in eighths all the way, as jigs are.
    [Fact]
    public void The_metre_of_nine_tunes_in_ten_is_found()
    {
        var folder = Places.NeedShared("tunes");
        TimeSignature[] known = [new(4, 4), new(3, 4), new(6, 8)];
        var told = Directory
            .GetFiles(folder, "*.abc")
            .Order(StringComparer.Ordinal)
            .Select(path => AbcReader.Read(File.ReadAllBytes(path), path).Tunes[0])
            .Where(tune => known.Contains(Sounding(tune.Time)) && tune.Bars.All(bar => bar.Time == tune.Time))
            .Select(tune => (tune.Title, Wanted: Sounding(tune.Time), Found: Found(Arranged(tune))))
            .ToList();
        var wrong = told.Where(one => one.Wanted != one.Found).Select(one => $"{one.Title}: {one.Found}").ToList();
        told.Count.Should().BeGreaterThan(30);
        wrong.Count.Should().BeLessThanOrEqualTo(told.Count / 10, string.Join("; ", wrong));
    }

    private static TimeSignature Found(Break played)
    {
        var moments = PlayedMoments.Of(played);
        var half = played.Time.Step.ToDouble();
        return TakeMetre.Of(
            [
                .. moments.Select(moment => new TakeEvidence.Begun(
                    (int)Math.Floor((moment.Onset - moments[0].Onset) / half + 1e-9),
                    moment.Keys,
                    moment.Attack < 0.5
                )),
            ],
            played.Setting.SoundingKeyOf(Neck.ShortString, 0)
        );
    }

    private static TimeSignature Sounding(TimeSignature time) =>
        time == TimeSignature.Cut || time == new TimeSignature(2, 4) ? TimeSignature.Common : time;

    private static Tune Demo(string name)
    {
        var path = Path.Combine(Places.Root, "data", "demo", $"{name}.abc");
        return AbcReader.Read(File.ReadAllBytes(path), path).Tunes[0];
    }

    private static Break Arranged(Tune tune) => Arranger.Arrange(tune).Break;
}
