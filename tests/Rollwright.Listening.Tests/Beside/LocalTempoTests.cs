using CsCheck;
using Rollwright.Listening.Beside.Following;

namespace Rollwright.Listening.Tests.Beside;

public class LocalTempoTests
{
    private static readonly double[] Eighths = [.. Enumerable.Range(0, 64).Select(i => i / 8.0)];

    [Fact]
    public void A_steady_tempo_is_found_exactly_everywhere() =>
        Gen.Select(Gen.Double[0.8, 4], Gen.Double[0, 5], Gen.Double[-1, 9])
            .Sample(
                (wholeNote, start, place) =>
                {
                    var tempo = new LocalTempo([.. Eighths.Select(at => (at, start + (at * wholeNote)))], 1);
                    var (seconds, found) = tempo.Of(place);
                    seconds.Should().BeApproximately(start + (place * wholeNote), 1e-6);
                    found.Should().BeApproximately(wholeNote, 1e-6);
                }
            );

    [Fact]
    public void One_late_note_bends_nothing()
    {
        var tempo = new LocalTempo([.. Eighths.Select(at => (at, (2 * at) + (at == 3 ? 0.2 : 0)))], 1);
        tempo.Without(3).Seconds.Should().BeApproximately(6, 1e-9);
        tempo.Without(3.125).Seconds.Should().BeApproximately(6.25, 0.003);
    }

    [Fact]
    public void One_onset_goes_on_at_the_tempo_given() => new LocalTempo([(1, 4)], 2).Of(2).Should().Be((6, 2));
}
