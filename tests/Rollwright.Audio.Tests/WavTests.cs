using CsCheck;
using Rollwright.Audio.Reading;
using Rollwright.Audio.Wave;

namespace Rollwright.Audio.Tests;

public class WavTests
{
    private static readonly Gen<Samples> AnySound =
        from channels in Gen.Int[1, 4]
        from frames in Gen.Int[0, 200]
        from rate in Gen.Int[8_000, 192_000]
        from values in Gen.Float[-1, 1].Array[channels * frames]
        select new Samples(rate, channels, values);

    [Theory]
    [InlineData(WavEncoding.Pcm16, 0.5 / 32_767)]
    [InlineData(WavEncoding.Pcm24, 0.5 / 8_388_607)]
    [InlineData(WavEncoding.Float32, 0)]
    public void What_is_written_is_read_back_to_half_a_step(WavEncoding encoding, double halfStep)
    {
        AnySound.Sample(sound =>
        {
            var back = WavReader.Read(WavWriter.ToBytes(sound, encoding));
            back.Rate.Should().Be(sound.Rate);
            back.Channels.Should().Be(sound.Channels);
            back.Frames.Should().Be(sound.Frames);
            for (var i = 0; i < sound.Interleaved.Length; i++)
                Math.Abs(back.Interleaved[i] - sound.Interleaved[i])
                    .Should()
                    .BeLessThanOrEqualTo((float)halfStep + 1e-7f);
        });
    }

    [Fact]
    public void Beyond_full_scale_is_held_and_does_not_turn_over()
    {
        var back = WavReader.Read(WavWriter.ToBytes(new Samples(44_100, 1, [1.5f, -1.5f])));
        back.Interleaved.ToArray().Should().Equal(1f, -1f);
    }

    [Theory]
    [InlineData(0, "byte 0: this is no WAV file; give one that begins with RIFF and WAVE")]
    [InlineData(11, "byte 0: this is no WAV file; give one that begins with RIFF and WAVE")]
    [InlineData(30, "byte 20: the format chunk is cut short; record or copy the file again")]
    [InlineData(40, "byte 40: the file ends before its data; record or copy it again")]
    public void A_file_cut_short_says_where_and_what_to_do(int length, string message)
    {
        var bytes = WavWriter.ToBytes(new Samples(44_100, 1, new float[10]))[..length];
        FluentActions.Invoking(() => WavReader.Read(bytes)).Should().Throw<SoundFileException>().WithMessage(message);
    }

    [Fact]
    public void Damaged_files_are_read_or_refused_and_never_break_the_reader()
    {
        var whole = WavWriter.ToBytes(new Samples(44_100, 2, new float[40]), WavEncoding.Float32);
        Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Byte, Gen.Int[0, whole.Length])
            .Sample(
                (at, value, length) =>
                {
                    var bytes = whole.ToArray();
                    bytes[at] = value;
                    try
                    {
                        WavReader.Read(bytes[..length]).Frames.Should().BeInRange(0, 200);
                    }
                    catch (SoundFileException refused)
                    {
                        refused.At.Should().BeInRange(0, whole.Length);
                    }
                },
                iter: 5_000
            );
    }
}
