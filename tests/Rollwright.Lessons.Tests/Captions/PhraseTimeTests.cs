using Rollwright.Lessons.Captions;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Captions;

public class PhraseTimeTests
{
    [Fact]
    public void Phrases_follow_each_other_without_a_hole_and_last_as_long_as_the_sound()
    {
        foreach (var played in SharedBreaks.All())
        {
            var phrases = PhraseTime.Of(played, BarTimes.At(played));
            phrases[0].From.Should().Be(0);
            for (var i = 1; i < phrases.Length; i++)
                phrases[i].From.Should().Be(phrases[i - 1].To, played.Title);
            // The synth reckons its own times, steps swung: a whole break ends with its last bar.
            var sound = Sound.Playing.Timeline.Of(played, new Sound.SynthOptions());
            phrases[^1].To.Should().BeApproximately(sound.Seconds, 0.001 * phrases[^1].To, played.Title);
        }
    }

    [Fact]
    public void A_part_that_is_repeated_is_counted_in_its_passes()
    {
        var played = SampleBreaks.Small;
        var phrases = PhraseTime.Of(played, BarTimes.At(played));
        phrases.Select(time => $"{time.Part}{time.Pass}:{time.Phrase.Number}").Should().Equal(Expected);
    }

    // Counted by hand from the order of play 0 1 2 3 4 1 2 3 5 6 7 6 7; phrases of bars 0-2, 3-4, 5 and 6-7.
    private static readonly string[] Expected = ["A1:1", "A1:2", "A2:1", "A2:2", "A2:3", "B1:4", "B2:4"];

    [Fact]
    public void Half_the_tempo_takes_twice_as_long()
    {
        var played = SampleBreaks.Small;
        var half = played.Tempo with { PerMinute = played.Tempo.PerMinute / 2 };
        BarTimes.At(played, half).Bars[^1].To.Should().BeApproximately(2 * BarTimes.At(played).Bars[^1].To, 1e-9);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    [InlineData(double.NaN)]
    [InlineData(1e9)]
    public void A_tempo_that_is_none_is_refused(double perMinute)
    {
        var played = SampleBreaks.Small;
        var act = () => BarTimes.At(played, played.Tempo with { PerMinute = perMinute });
        act.Should().Throw<LessonException>();
    }
}
