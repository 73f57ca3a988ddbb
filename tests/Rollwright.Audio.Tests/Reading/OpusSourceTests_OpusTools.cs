namespace Rollwright.Audio.Tests.Reading;

/// <summary>ffmpeg (libopus) makes the files; the judge is opusdec, the codec's own program (Debian package opus-tools).</summary>
public class OpusSourceTests_OpusTools
{
    [Theory]
    [InlineData("-c:a libopus -b:a 96k", 2, 48_000)]
    [InlineData("-c:a libopus -b:a 32k", 1, 16_000)]
    [InlineData("-c:a libopus -b:a 12k -application voip", 1, 8_000)]
    public void What_is_read_is_what_opusdec_reads(string how, int channels, int rate)
    {
        var file = SoundFiles.Made(SoundFiles.Struck(rate, channels, 2.3), "opus", how);
        var theirs = SoundFiles.AsOpusdecReads(file);
        var (ours, remarks) = SoundFiles.AsWeRead(file);
        ours.Frames.Should().Be(theirs.Frames);
        SoundFiles.Agreement(ours, theirs).Should().BeGreaterThan(50);
        remarks.Should().BeEmpty();
    }

    [Fact]
    public void Six_channels_come_in_the_order_of_the_file()
    {
        var file = SoundFiles.Made(
            SoundFiles.Struck(48_000, 6, 2.3),
            "opus",
            "-c:a libopus -b:a 256k -mapping_family 1"
        );
        var theirs = SoundFiles.AsOpusdecReads(file);
        var (ours, _) = SoundFiles.AsWeRead(file);
        // RFC 7845, 5.1.1.2: left, centre, right, two behind, low effects; WAV: left, right, centre, low effects, two behind.
        int[] order = [0, 2, 1, 4, 5, 3];
        for (var channel = 0; channel < 6; channel++)
            SoundFiles
                .Agreement(new(48_000, 1, ours.Channel(channel)), new(48_000, 1, theirs.Channel(order[channel])))
                .Should()
                .BeGreaterThan(40);
    }
}
