using Rollwright.Audio.Reading;

namespace Rollwright.Audio.Tests.Reading;

/// <summary>The outside judge is ffmpeg (Debian package ffmpeg): it makes the files and decodes them too.</summary>
public class SoundFileTests_Ffmpeg
{
    [Theory]
    // Whole numbers: half a step of 8 bits, and full scale counted as 127 or 128; finer ones to their steps.
    [InlineData("wav", "-c:a pcm_u8", 2, 44_100, 0.012)]
    [InlineData("wav", "-c:a pcm_s16le", 1, 8_000, 0.0001)]
    [InlineData("wav", "-c:a pcm_s24le", 2, 96_000, 0.000001)]
    [InlineData("wav", "-c:a pcm_s32le", 6, 48_000, 0.000001)]
    [InlineData("wav", "-c:a pcm_f32le", 8, 44_100, 0)]
    [InlineData("wav", "-c:a pcm_f64le", 2, 44_100, 0)]
    [InlineData("wav", "-c:a pcm_s16le -rf64 always", 2, 44_100, 0.0001)]
    public void What_is_read_of_whole_numbers_is_what_ffmpeg_reads(
        string ending,
        string how,
        int channels,
        int rate,
        double bound
    ) =>
        Compared(
            ending,
            how,
            channels,
            rate,
            (ours, theirs) => SoundFiles.GreatestDifference(ours, theirs).Should().BeLessThanOrEqualTo(bound)
        );

    [Theory]
    // Two decoders of the same bits round otherwise: 90 dB below the sound and more. NLayer errs in a few frames of what
    // LAME makes at changing rates, where a note is struck: 40 dB below the sound, measured.
    [InlineData("mp3", "-c:a libmp3lame -b:a 128k", 2, 44_100, 80)]
    [InlineData("mp3", "-c:a libmp3lame -b:a 64k", 1, 48_000, 80)]
    [InlineData("mp3", "-c:a libmp3lame -q:a 2", 1, 48_000, 35)]
    [InlineData("mp3", "-c:a libmp3lame -b:a 64k", 2, 22_050, 80)]
    [InlineData("ogg", "-c:a libvorbis -q:a 5", 2, 44_100, 80)]
    [InlineData("ogg", "-c:a libvorbis -q:a 3", 1, 8_000, 80)]
    public void What_is_read_of_a_lossy_form_is_what_ffmpeg_reads(
        string ending,
        string how,
        int channels,
        int rate,
        double decibels
    ) =>
        Compared(
            ending,
            how,
            channels,
            rate,
            (ours, theirs) => SoundFiles.Agreement(ours, theirs).Should().BeGreaterThan(decibels)
        );

    [Theory]
    [InlineData("mp3", "-c:a libmp3lame -b:a 24k", 1, 8_000)]
    [InlineData("ogg", "-c:a libvorbis", 6, 48_000)]
    [InlineData("flac", "-c:a flac", 2, 44_100)]
    [InlineData("ogg", "-c:a flac", 2, 44_100)]
    [InlineData("m4a", "-c:a aac", 2, 44_100)]
    [InlineData("wav", "-c:a pcm_mulaw", 1, 8_000)]
    public void What_is_not_read_here_is_left_to_another_decoder(string ending, string how, int channels, int rate)
    {
        var file = SoundFiles.Made(SoundFiles.Struck(rate, channels, 0.5), ending, how);
        FluentActions
            .Invoking(() => SoundFile.Open(new MemoryStream(file)))
            .Should()
            .Throw<SoundFileException>()
            .Which.IsOtherForm.Should()
            .BeTrue();
    }

    [Theory]
    [InlineData("wav", "-c:a pcm_s16le")]
    [InlineData("mp3", "-c:a libmp3lame -b:a 128k")]
    [InlineData("ogg", "-c:a libvorbis")]
    [InlineData("opus", "-c:a libopus")]
    public void Of_a_file_cut_in_the_middle_the_half_is_heard_and_one_line_says_so(string ending, string how)
    {
        var sound = SoundFiles.Struck(48_000, 2, 4);
        var file = SoundFiles.Made(sound, ending, how);
        var (whole, _) = SoundFiles.AsWeRead(file);
        var (half, remarks) = SoundFiles.AsWeRead(file[..(file.Length / 2)]);
        half.Duration.TotalSeconds.Should().BeInRange(0.9, 2.6, "pages are up to a second long");
        // The last window of a lossy form has nothing to overlap with.
        var sure = half.Interleaved[..^8_192].ToArray();
        SoundFiles.GreatestDifference(new(48_000, 2, sure), whole).Should().BeLessThan(0.0001);
        remarks.Should().ContainSingle().Which.Should().MatchRegex(@"^(the file ends|damaged) at 0:\d\d\.\d.*heard$");
    }

    private static void Compared(string ending, string how, int channels, int rate, Action<Samples, Samples> judge)
    {
        var file = SoundFiles.Made(SoundFiles.Struck(rate, channels, 2.3), ending, how);
        var theirs = SoundFiles.AsFfmpegReads(file);
        var (ours, remarks) = SoundFiles.AsWeRead(file);
        ours.Rate.Should().Be(theirs.Rate);
        ours.Channels.Should().Be(theirs.Channels);
        ours.Frames.Should().Be(theirs.Frames);
        judge(ours, theirs);
        theirs.Peak.Should().BeGreaterThan(0.2f);
        remarks.Should().BeEmpty();
    }

    [Fact]
    public void A_tag_with_a_picture_before_an_mp3_is_passed_over()
    {
        var file = SoundFiles.Made(SoundFiles.Struck(44_100, 1, 1), "mp3", "-c:a libmp3lame -id3v2_version 0");
        byte[] tag = [.. "ID3"u8, 3, 0, 0, 0, 1, 0x1e, 0x10, .. new byte[(1 << 14) + (0x1e << 7) + 0x10]];
        var (plain, _) = SoundFiles.AsWeRead(file);
        var (tagged, remarks) = SoundFiles.AsWeRead([.. tag, .. file]);
        tagged.Interleaved.ToArray().Should().Equal(plain.Interleaved.ToArray());
        remarks.Should().BeEmpty();
    }
}
