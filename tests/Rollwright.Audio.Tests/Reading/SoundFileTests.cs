using Rollwright.Audio.Opus;
using Rollwright.Audio.Reading;
using Rollwright.Audio.Wave;
using Rollwright.TestKit;

namespace Rollwright.Audio.Tests.Reading;

public class SoundFileTests
{
    [Theory]
    [InlineData("", "byte 0: the file is empty; record or copy it again", false)]
    [InlineData("This is a letter, not a sound.", "byte 0: this is no sound that is known here", true)]
    [InlineData("RIFF", "byte 0: this is no sound that is known here", true)]
    [InlineData("OggS", "byte 27: an Ogg file, but neither Vorbis nor Opus", true)]
    public void What_is_no_sound_is_refused_in_one_line(string text, string message, bool isOther) =>
        FluentActions
            .Invoking(() => SoundFile.Open(new MemoryStream(System.Text.Encoding.ASCII.GetBytes(text))))
            .Should()
            .Throw<SoundFileException>()
            .WithMessage(message)
            .Which.IsOtherForm.Should()
            .Be(isOther);

    [Fact]
    public void A_recording_whose_length_was_never_written_is_read_to_its_end()
    {
        var file = WavWriter.ToBytes(SoundFiles.Struck(44_100, 1, 1));
        foreach (
            var length in (byte[][])
                [
                    [0xff, 0xff, 0xff, 0xff],
                    [0, 0, 0, 0],
                ]
        )
        {
            length.CopyTo(file, 4);
            length.CopyTo(file, 40);
            var (sound, remarks) = SoundFiles.AsWeRead(file);
            sound.Frames.Should().Be(44_100);
            remarks.Should().BeEmpty();
        }
    }

    [Fact]
    public void Opus_of_ours_comes_back_as_long_as_it_was()
    {
        var (sound, remarks) = SoundFiles.AsWeRead(OpusWriter.ToBytes(SoundFiles.Struck(48_000, 2, 1.2345)));
        sound.Frames.Should().Be(59_256);
        remarks.Should().BeEmpty();
    }

    [Theory]
    [InlineData("wav", "")]
    [InlineData("mp3", "-c:a libmp3lame -b:a 64k")]
    [InlineData("ogg", "-c:a libvorbis")]
    [InlineData("opus", "-c:a libopus")]
    public void Damaged_files_are_read_or_refused_and_never_break_the_reader(string ending, string how)
    {
        var good = SoundFiles.Made(SoundFiles.Struck(16_000, 2, 1), ending, how);
        var most = (int)(20 * 48_000 * 8);
        for (var seed = 0; seed < 300; seed++)
        {
            var bad = new Mutation(
                seed,
                ["OggS", "OpusHead", "RIFF", "fmt ", "data", "ID3", "\u00ff\u00fb\u0090", "\u0001vorbis"]
            ).Of(good);
            try
            {
                using var source = SoundFile.Open(new MemoryStream(bad));
                var block = new float[4_096 * source.Channels];
                var count = 0;
                while (source.Read(block) is > 0 and var read)
                {
                    (read % source.Channels).Should().Be(0);
                    count += read;
                    count.Should().BeLessThan(most, $"seed {seed}: a second of sound has not become endless");
                }
                source.Remarks.Should().OnlyContain(remark => remark.Length < 200 && !remark.Contains('\n'));
            }
            catch (SoundFileException refused)
            {
                refused.At.Should().BeInRange(0, bad.Length);
            }
        }
    }
}
