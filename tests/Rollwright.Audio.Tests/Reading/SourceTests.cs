using CsCheck;
using Rollwright.Audio.Reading;
using Rollwright.Audio.Wave;

namespace Rollwright.Audio.Tests.Reading;

public class SourceTests
{
    [Fact]
    public void Of_two_sides_the_mean_is_heard() =>
        Mono(Sides(left: 1, right: 1)).Should().BeApproximately(Level(Tone(0.5f)), 0.001);

    [Fact]
    public void A_dead_side_costs_nothing()
    {
        Mono(Sides(left: 1, right: 0)).Should().BeApproximately(Level(Tone(0.5f)), 0.001);
        Mono(Sides(left: 0.002f, right: 1)).Should().BeApproximately(Level(Tone(0.5f)), 0.001);
    }

    [Fact]
    public void Sides_of_opposite_phase_do_not_take_each_other_away() =>
        Mono(Sides(left: 1, right: -1)).Should().BeApproximately(Level(Tone(0.5f)), 0.001);

    [Theory]
    [InlineData(8_000)]
    [InlineData(22_050)]
    [InlineData(44_100)]
    [InlineData(48_000)]
    [InlineData(96_000)]
    public void At_another_rate_a_tone_is_the_same_tone_at_the_same_time(int rate)
    {
        // Two seconds of 1,000 Hz that swells, so that a shift in time shows.
        static double At(double time) => 0.5 * Math.Sin(Math.PI * time / 2) * Math.Sin(2 * Math.PI * 1_000 * time);
        var values = Enumerable.Range(0, 2 * rate).Select(i => (float)At((double)i / rate)).ToArray();
        using var source = Source(new(rate, 1, values)).AtRate(22_050);
        var back = source.ReadAll(int.MaxValue);
        back.Rate.Should().Be(22_050);
        back.Frames.Should().BeInRange(44_099, 44_101);
        for (var i = 0; i < back.Frames; i++)
            ((double)back.Interleaved[i]).Should().BeApproximately(At(i / 22_050.0), 0.002);
    }

    [Fact]
    public void What_is_too_high_for_the_new_rate_is_taken_away_and_not_folded_down()
    {
        var values = Enumerable
            .Range(0, 96_000)
            .Select(i => (float)Math.Sin(2 * Math.PI * 15_000 * i / 48_000))
            .ToArray();
        using var source = Source(new(48_000, 1, values)).AtRate(22_050);
        var back = source.ReadAll(int.MaxValue);
        // 50 dB below, but for the edges where the tone is switched.
        back.Interleaved[1_000..^1_000].ToArray().Max(Math.Abs).Should().BeLessThan(0.003f);
    }

    [Fact]
    public void Blocks_of_any_length_give_the_same_sound() =>
        Gen.Select(Gen.Int[1, 5_000], Gen.Int[1, 3])
            .Sample(
                (length, channels) =>
                {
                    var sound = SoundFiles.Struck(48_000, channels, 0.5);
                    using var one = Source(sound).ToMono().AtRate(22_050);
                    using var other = Source(sound).ToMono().AtRate(22_050);
                    var whole = one.ReadAll(int.MaxValue).Interleaved.ToArray();
                    var parts = new List<float>();
                    var block = new float[length];
                    while (other.Read(block) is > 0 and var read)
                        parts.AddRange(block.AsSpan(0, read));
                    parts.Count.Should().Be(whole.Length);
                    parts.Zip(whole, (a, b) => Math.Abs(a - b)).Max().Should().BeLessThan(1e-5f);
                },
                iter: 100
            );

    [Fact]
    public void A_part_is_what_lies_between_its_times()
    {
        var sound = SoundFiles.Struck(8_000, 2, 2);
        using var source = Source(sound).Between(0.5, 1.25);
        var part = source.ReadAll(int.MaxValue);
        part.Interleaved.ToArray().Should().Equal(sound.Interleaved[8_000..20_000].ToArray());
        using var beyond = Source(sound).Between(5, 6);
        beyond.ReadAll(int.MaxValue).Frames.Should().Be(0);
    }

    [Theory]
    [InlineData(0.9, 0, 0)]
    [InlineData(1, 0, 0)]
    // A sine that is cut at a height stands there 1 − 2/π·asin(1/gain) of the time.
    [InlineData(1.2, 0.3735, 0.02)]
    [InlineData(2, 0.6667, 0.02)]
    public void How_much_is_clipped_is_said(double gain, double share, double tolerance)
    {
        var values = Enumerable
            .Range(0, 44_100)
            .Select(i => (float)Math.Clamp(gain * Math.Sin(2 * Math.PI * 196 * i / 44_100), -1, 1))
            .ToArray();
        using var watch = new ClippingWatch(
            WavReader.Open(new MemoryStream(WavWriter.ToBytes(new(44_100, 1, values))))
        );
        watch.ReadAll(int.MaxValue);
        watch.Share.Should().BeApproximately(share, tolerance);
        (watch.First is null).Should().Be(share == 0);
    }

    [Theory]
    [InlineData("0:12", 12.0)]
    [InlineData("12.5", 12.5)]
    [InlineData("1:02:03.4", 3_723.4)]
    [InlineData("0:61", null)]
    [InlineData("-1", null)]
    [InlineData("1:", null)]
    [InlineData("soon", null)]
    [InlineData("1:2:3:4", null)]
    public void Times_are_read_as_people_write_them(string text, double? seconds) =>
        Moment.Parse(text).Should().Be(seconds);

    [Fact]
    public void Times_that_are_written_are_read_back() =>
        Gen.Int[0, 2_000_000]
            .Sample(tenths => Math.Abs(Moment.Parse(Moment.Text(tenths / 10.0))!.Value - (tenths / 10.0)) < 1e-6);

    private static ISoundSource Source(Samples sound) =>
        WavReader.Open(new MemoryStream(WavWriter.ToBytes(sound, WavEncoding.Float32)));

    private static float[] Tone(float gain) =>
        [.. Enumerable.Range(0, 16_000).Select(i => gain * (float)Math.Sin(2 * Math.PI * 440 * i / 8_000))];

    private static Samples Sides(float left, float right) =>
        new(8_000, 2, [.. Tone(0.5f).SelectMany(value => (float[])[left * value, right * value])]);

    private static double Mono(Samples sound)
    {
        using var source = Source(sound).ToMono();
        return Level(source.ReadAll(int.MaxValue).Interleaved.ToArray());
    }

    private static double Level(float[] values) => Math.Sqrt(values.Average(value => (double)value * value));
}
