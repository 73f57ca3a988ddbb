using CsCheck;
using Rollwright.Audio.Stretching;
using Rollwright.Audio.Tests.Reading;

namespace Rollwright.Audio.Tests.Stretching;

public class StretcherTests
{
    private const int Rate = 44_100;

    public static TheoryData<double> Stretches => [0.75, 1 / 0.9, 1 / 0.75, 1 / 0.6, 2, 1 / 0.4, 4];

    [Fact]
    public void At_its_own_tempo_a_sound_stays_as_it_is()
    {
        var sound = SoundFiles.Struck(Rate, 2, 1.5);
        SoundFiles.GreatestDifference(Stretcher.Stretch(sound, 1), sound).Should().BeLessThan(1e-6);
    }

    [Fact]
    public void Any_sound_becomes_as_long_as_asked_for_and_no_louder() =>
        Gen.Select(Gen.Float[-1, 1].Array[0, 4_000], Gen.Int[1, 3], Gen.Double[Stretcher.Least, Stretcher.Most])
            .Sample(
                (values, channels, stretch) =>
                {
                    var sound = new Samples(8_000, channels, values[..(values.Length - (values.Length % channels))]);
                    var stretched = Stretcher.Stretch(sound, stretch);
                    stretched.Frames.Should().BeCloseTo((int)(sound.Frames * stretch), 1);
                    stretched.Peak.Should().BeLessThanOrEqualTo(sound.Peak + 1e-5f);
                },
                iter: 300
            );

    [Theory]
    [MemberData(nameof(Stretches))]
    public void A_tone_keeps_its_pitch_and_its_level(double stretch)
    {
        foreach (var pitch in (double[])[98, 146.83, 196, 440, 1_174.7, 2_637])
        {
            var tone = new Samples(
                Rate,
                1,
                [.. Enumerable.Range(0, 2 * Rate).Select(i => (float)(0.5 * Math.Sin(2 * Math.PI * pitch * i / Rate)))]
            );
            var stretched = Stretcher.Stretch(tone, stretch).Channel(0)[2_000..^2_000];
            Cents(Sounds.Pitch(stretched), pitch).Should().BeInRange(-3, 3);
            Math.Sqrt(stretched.Average(value => value * value)).Should().BeApproximately(0.5 / Math.Sqrt(2), 0.02);
        }
    }

    [Theory]
    [MemberData(nameof(Stretches))]
    public void Clicks_stay_single_and_come_at_their_time(double stretch)
    {
        int[] clicks = [.. Enumerable.Range(1, 30).Select(i => 3_000 + (i * 4_321))];
        var values = new float[(clicks[^1] + 6_000)];
        var random = new Random(7);
        foreach (var click in clicks)
            for (var i = 0; i < 150; i++)
                values[click + i] = (float)(Math.Exp(-i / 25.0) * ((2 * random.NextDouble()) - 1));
        Struck(
            Stretcher.Stretch(new(Rate, 1, values), stretch).Channel(0),
            [.. clicks.Select(at => at * stretch / Rate)],
            0.008
        );
    }

    [Theory]
    [MemberData(nameof(Stretches))]
    public void Notes_struck_over_ringing_ones_stay_single_and_come_at_their_time(double stretch)
    {
        var (sound, starts) = Sounds.RingingNotes();
        Struck(Stretcher.Stretch(sound, stretch).Channel(0), [.. starts.Select(at => at * stretch)], 0.008);
    }

    [Theory]
    [InlineData(0.49)]
    [InlineData(4.01)]
    [InlineData(double.NaN)]
    public void Beyond_its_range_it_refuses(double stretch) =>
        FluentActions
            .Invoking(() => Stretcher.Stretch(new(8_000, 1, new float[10]), stretch))
            .Should()
            .Throw<ArgumentOutOfRangeException>();

    private static void Struck(float[] sound, double[] expected, double bound)
    {
        var found = Sounds.Onsets(sound);
        found.Should().HaveCount(expected.Length);
        found.Zip(expected, (one, other) => Math.Abs(one - other)).Max().Should().BeLessThan(bound);
    }

    private static double Cents(double one, double other) => 1_200 * Math.Log2(one / other);
}
