using Rollwright.Audio.Loudness;

namespace Rollwright.Audio.Tests;

/// <summary>Loudness against what ITU-R BS.1770-4 and EBU Tech 3341 (2016) say of signals that anyone can make.</summary>
public class LoudnessTests
{
    [Fact]
    public void At_48_kHz_the_filters_are_those_of_the_standard()
    {
        // ITU-R BS.1770-4, tables 1 and 2.
        double[] head = [1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585];
        double[] ear = [1.0, -2.0, 1.0, -1.99004745483398, 0.99007225036621];
        for (var i = 0; i < 5; i++)
        {
            KWeighting.Head(48_000).Coefficients[i].Should().BeApproximately(head[i], 1e-10);
            KWeighting.Ear(48_000).Coefficients[i].Should().BeApproximately(ear[i], 1e-10);
        }
    }

    [Theory]
    // BS.1770-4: a sine of 997 Hz at full scale in one channel reads −3.01 LKFS; in both, 3.01 more.
    [InlineData(48_000, 1, 0, -3.01)]
    [InlineData(44_100, 1, 0, -3.01)]
    [InlineData(48_000, 2, 0, 0)]
    // EBU Tech 3341, case 1: 20 s of a stereo sine at −23 dBFS reads −23 LUFS, ±0.1.
    [InlineData(48_000, 2, -23, -23)]
    [InlineData(44_100, 2, -23, -23)]
    [InlineData(48_000, 2, -33, -33)]
    public void A_sine_of_997_Hz_reads_what_the_standard_says(int rate, int channels, double level, double lufs) =>
        IntegratedLoudness.Of(Sine(rate, channels, (level, 20))).Should().BeApproximately(lufs, 0.05);

    [Fact]
    public void What_is_far_below_the_rest_does_not_count()
    {
        // EBU Tech 3341, cases 3 and 4: both read −23 LUFS, ±0.1.
        var steps = Sine(48_000, 2, (-36, 10), (-23, 60), (-36, 10));
        IntegratedLoudness.Of(steps).Should().BeApproximately(-23, 0.1);
        var more = Sine(48_000, 2, (-72, 10), (-36, 10), (-23, 60), (-36, 10), (-72, 10));
        IntegratedLoudness.Of(more).Should().BeApproximately(-23, 0.1);
    }

    [Fact]
    public void Silence_and_what_is_shorter_than_a_block_have_no_loudness()
    {
        IntegratedLoudness.Of(new(48_000, 1, new float[96_000])).Should().Be(double.NegativeInfinity);
        IntegratedLoudness.Of(new(48_000, 1, [1f])).Should().Be(double.NegativeInfinity);
    }

    [Theory]
    // EBU Tech 3341, case 16: a quarter of the rate, sampled 45° off its peaks: 3 dB between samples and true peak (+0.2, −0.4).
    [InlineData(4, 45, 0.5)]
    // Cases 15 and 17 to 19: the rate's quarter on its peaks, its sixth at 60°, its eighth at 67.5°.
    [InlineData(4, 0, 0.5)]
    [InlineData(6, 60, 0.5)]
    [InlineData(8, 67.5, 0.5)]
    public void The_peak_between_the_samples_is_found(int divisor, double degrees, double amplitude)
    {
        var values = new float[4_800];
        for (var i = 0; i < values.Length; i++)
        {
            // Faded in and out, as the standard's signals are: a cut sine has a peak of its own.
            var fade = Math.Min(1, Math.Min(i, values.Length - i) / 1_000.0);
            var phase = (2 * Math.PI * i / divisor) + (degrees * Math.PI / 180);
            values[i] = (float)(amplitude * fade * Math.Sin(phase));
        }
        var decibels = 20 * Math.Log10(TruePeak.Of(new(48_000, 1, values)) / amplitude);
        decibels.Should().BeInRange(-0.4, 0.2);
    }

    private static Samples Sine(int rate, int channels, params ReadOnlySpan<(double Level, double Seconds)> steps)
    {
        var values = new List<float>();
        var frame = 0;
        foreach (var (level, seconds) in steps)
        {
            var amplitude = Math.Pow(10, level / 20);
            for (var i = 0; i < seconds * rate; i++, frame++)
            {
                var value = (float)(amplitude * Math.Sin(2 * Math.PI * 997 * frame / rate));
                for (var channel = 0; channel < channels; channel++)
                    values.Add(value);
            }
        }
        return new(rate, channels, [.. values]);
    }
}
