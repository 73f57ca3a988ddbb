using CsCheck;
using Rollwright.Listening.Rhythm;

namespace Rollwright.Listening.Tests.Rhythm;

public class StepTrackerTests
{
    // A stream of steps, some longer, some halved by a slur; each moves by some milliseconds, and the tempo drifts.
    private static readonly Gen<(int[] At, double[] Times)> Stream = (
        from gaps in Gen.Frequency((8, Gen.Const(2)), (1, Gen.Const(4)), (1, Gen.Const(1))).Array[24, 120]
        from step in Gen.Double[0.1, 0.45]
        from drift in Gen.Double[-0.08, 0.08]
        from jitter in Gen.Double[-0.008, 0.008].Array[121]
        select Played(gaps, step, drift, jitter)
    ).Where(HasMoreStepsThanHalves);

    [Fact]
    public void Steps_are_counted_through_jitter_and_a_drifting_tempo() =>
        Stream.Sample(stream =>
        {
            var tracked = StepTracker.Track(stream.Times, new bool[stream.Times.Length], null);
            tracked.At.Should().Equal(stream.At);
            tracked.Swing.Should().Be(0);
        });

    [Fact]
    public void What_is_no_step_is_passed_over() =>
        Gen.Select(Stream, Gen.Int[2, 18], Gen.Double[0.15, 0.35])
            .Sample(
                (stream, after, part) =>
                {
                    // An echo within a whole step, neither on it nor on its half.
                    if (stream.At[after + 1] - stream.At[after] != 2)
                        return true;
                    var echo = stream.Times[after] + (part * (stream.Times[after + 1] - stream.Times[after]));
                    var times = stream.Times.Append(echo).Order().ToArray();
                    if (echo - stream.Times[after] < 0.06)
                        return true;
                    var tracked = StepTracker.Track(times, new bool[times.Length], null);
                    return tracked.At.Where(at => at != StepTracker.NoStep).Last() == stream.At[^1];
                }
            );

    [Fact]
    public void Where_slurs_halve_most_steps_a_step_is_still_from_pluck_to_pluck()
    {
        // Of every four steps three are a pluck and a slur, half a step later.
        var halves = Enumerable.Range(0, 64).Where(half => half % 8 != 7).ToArray();
        var tracked = StepTracker.Track(
            [.. halves.Select(half => 1 + (half * 0.11))],
            [.. halves.Select(half => half % 2 == 1)],
            null
        );
        tracked.At.Should().Equal(halves);
        tracked.Step.Should().BeApproximately(0.22, 0.01);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(1.0 / 3)]
    public void Swing_is_told_from_even_steps(double swing)
    {
        // Pairs of steps half a second long.
        var times = Enumerable.Range(0, 64).Select(i => (i * 0.25) + (i % 2 == 1 ? swing * 0.25 : 0)).ToArray();
        var tracked = StepTracker.Track(times, new bool[times.Length], 0.25);
        tracked.Swing.Should().BeApproximately(swing, 0.01);
        tracked.At.Should().Equal(Enumerable.Range(0, 64).Select(i => 2 * i));
    }

    [Fact]
    public void A_line_of_time_goes_through_what_was_played()
    {
        var line = new TimeLine(
            [.. Enumerable.Range(0, 50).Select(i => 2.0 * i)],
            [.. Enumerable.Range(0, 50).Select(i => 1 + (0.3 * i))]
        );
        line.Half.Should().BeApproximately(0.15, 1e-9);
        line.TimeOf(33).Should().BeApproximately(1 + (0.15 * 33), 1e-9);
        line.TimeOf(120).Should().BeApproximately(1 + (0.15 * 120), 1e-9, "the line goes on behind the last");
    }

    // "A roll is a stream of steps, so the commonest distance is taken for one": where slurs halve most of them, it is not.
    private static bool HasMoreStepsThanHalves((int[] At, double[] Times) stream)
    {
        var gaps = stream.At.Zip(stream.At.Skip(1), (one, next) => next - one).ToList();
        return gaps.Count(gap => gap == 2) > 2 * gaps.Count(gap => gap == 1);
    }

    private static (int[] At, double[] Times) Played(int[] gaps, double step, double drift, double[] jitter)
    {
        var (at, times) = (new int[gaps.Length + 1], new double[gaps.Length + 1]);
        (times[0], at[0]) = (0.5, 0);
        var now = 0.5;
        for (var i = 0; i < gaps.Length; i++)
        {
            // Two halves of a step come in pairs, as a slur within a step does.
            var gap =
                gaps[i] == 1 && at[i] % 2 == 0 && i + 1 < gaps.Length ? 1
                : at[i] % 2 == 1 ? 1
                : Math.Max(2, gaps[i]);
            at[i + 1] = at[i] + gap;
            now += gap * step / 2 * (1 + (drift * Math.Sin(i / 15.0)));
            times[i + 1] = now + jitter[i];
        }
        return (at, times);
    }
}
